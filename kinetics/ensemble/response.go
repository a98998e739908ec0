package ensemble

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// A response is a quadratic in x fitted to the log-likelihood around a cloud
// with mean m and covariance L·Lᵀ, u = m + L·x: (7) of the package comment.
type response struct {
	gradient *mat.VecDense
	bend     *mat.SymDense // minus the second derivatives, none below 0
	misfit   float64       // standard deviation of what it leaves
}

// coefficients of a quadratic in d unknowns.
func coefficients(d int) int { return (d + 1) * (d + 2) / 2 }

// fitResponse is false where the points do not determine a quadratic.
func fitResponse(x [][]float64, logLike, weights []float64) (response, bool) {
	d := len(x[0])
	columns := coefficients(d)
	free := 1 - float64(columns)/effective(weights)
	var used []int
	for i, w := range weights {
		if w > 0 && !math.IsInf(logLike[i], -1) {
			used = append(used, i)
		}
	}
	if len(used) < columns || free <= 0 {
		return response{}, false
	}
	design, values := mat.NewDense(len(used), columns, nil), mat.NewVecDense(len(used), nil)
	for row, i := range used {
		root := math.Sqrt(weights[i])
		fill(design.RawRowView(row), x[i], root)
		values.SetVec(row, root*logLike[i])
	}
	var qr mat.QR
	qr.Factorize(design)
	var c, left mat.VecDense
	if err := qr.SolveVecTo(&c, false, values); err != nil {
		return response{}, false
	}
	left.MulVec(design, &c)
	left.SubVec(values, &left)
	r := response{misfit: mat.Norm(&left, 2) / math.Sqrt(free)}
	r.gradient = mat.VecDenseCopyOf(c.SliceVec(1, d+1))
	bend := mat.NewSymDense(d, nil)
	at := d + 1
	for j := range d {
		for k := j; k < d; k++ {
			bend.SetSym(j, k, -c.AtVec(at))
			at++
		}
	}
	var ok bool
	r.bend, ok = positivePart(bend)
	return r, ok
}

// fill writes a row of the quadratic: 1, x, then ½x² and the products.
func fill(row, x []float64, scale float64) {
	row[0] = scale
	at := 1 + len(x)
	for j := range x {
		row[1+j] = scale * x[j]
		for k := j; k < len(x); k++ {
			row[at] = scale * x[j] * x[k]
			if j == k {
				row[at] /= 2
			}
			at++
		}
	}
}

// positivePart sets the negative eigenvalues of a matrix to 0.
func positivePart(a *mat.SymDense) (*mat.SymDense, bool) {
	var eigen mat.EigenSym
	if !eigen.Factorize(a, true) {
		return nil, false
	}
	var vectors mat.Dense
	eigen.VectorsTo(&vectors)
	b := mat.NewSymDense(a.SymmetricDim(), nil)
	for k, value := range eigen.Values(nil) {
		if value > 0 {
			b.SymRankOne(b, value, vectors.ColView(k))
		}
	}
	return b, true
}
