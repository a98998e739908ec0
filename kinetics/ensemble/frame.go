package ensemble

import "gonum.org/v1/gonum/mat"

// A frame has its origin at the mean m of a cloud and its covariance L·Lᵀ for
// units, u = m + L·x, so that a quadratic in x is well conditioned however
// narrow and slanting the cloud.
type frame struct {
	mean  *mat.VecDense
	lower mat.TriDense
}

func newFrame(m moments) (*frame, bool) {
	var chol mat.Cholesky
	if !chol.Factorize(m.cov) {
		return nil, false
	}
	f := &frame{mean: mat.NewVecDense(len(m.mean), m.mean)}
	chol.LTo(&f.lower)
	return f, true
}

func (f *frame) inside(u []float64) ([]float64, bool) {
	off, x := mat.NewVecDense(len(u), nil), mat.NewVecDense(len(u), nil)
	off.SubVec(mat.NewVecDense(len(u), u), f.mean)
	if x.SolveVec(&f.lower, off) != nil {
		return nil, false
	}
	return x.RawVector().Data, true
}

// point is where x lies.
func (f *frame) point(x []float64) []float64 {
	u, lower := make([]float64, len(x)), f.lower.RawTriangular()
	for j := range u {
		u[j] = f.mean.AtVec(j)
		for k := range j + 1 {
			u[j] += lower.Data[j*lower.Stride+k] * x[k]
		}
	}
	return u
}

func (f *frame) outside(x *mat.VecDense, cov *mat.SymDense) moments {
	d := f.mean.Len()
	mean, slanting := mat.NewVecDense(d, nil), mat.NewDense(d, d, nil)
	mean.MulVec(&f.lower, x)
	mean.AddVec(mean, f.mean)
	slanting.Product(&f.lower, cov, f.lower.T())
	m := moments{mean: mean.RawVector().Data, cov: mat.NewSymDense(d, nil)}
	for j := range d {
		for k := j; k < d; k++ {
			m.cov.SetSym(j, k, slanting.At(j, k))
		}
	}
	return m
}

// posterior returns the mean and the covariance, in x, of prior × e^(β·r). The
// prior has the precision LᵀL there and pulls to −L⁻¹m, so that with the
// gradient b and the bend B of r the mean solves
//
//	(LᵀL + β·B)·x = β·b − Lᵀm
func (f *frame) posterior(r response, beta float64) (*mat.VecDense, *mat.SymDense, bool) {
	var precision, bend, cov mat.SymDense
	precision.SymOuterK(1, f.lower.T())
	bend.ScaleSym(beta, r.bend)
	precision.AddSym(&precision, &bend)
	var pull, back, x mat.VecDense
	back.MulVec(f.lower.T(), f.mean)
	pull.AddScaledVec(&back, -beta, r.gradient)
	pull.ScaleVec(-1, &pull)
	var chol mat.Cholesky
	if !chol.Factorize(&precision) || chol.SolveVecTo(&x, &pull) != nil || chol.InverseTo(&cov) != nil {
		return nil, nil, false
	}
	return &x, &cov, true
}
