package conduction

// A Band is a symmetric matrix whose entries lie within a width of the diagonal.
type Band struct {
	width    int
	diagonal []float64
	// lower holds row by row the width entries left of the diagonal, of the
	// matrix and, after Factor, of L.
	lower  []float64
	scaled []float64 // a row of L·D while it is computed
}

func newBand(n, width int) *Band {
	return &Band{
		width: width, diagonal: make([]float64, n),
		lower: make([]float64, n*width), scaled: make([]float64, width),
	}
}

func (b *Band) clear() { clear(b.lower) }

// set sets the entry of row i that is distance left of the diagonal.
func (b *Band) set(i, distance int, v float64) { b.lower[(i+1)*b.width-distance] += v }

// Factor turns the matrix into L·D·Lᵀ. It is not pivoted, which is safe for a
// positive definite matrix; it returns false when the matrix is not.
func (b *Band) Factor() bool {
	if b.width == 1 {
		return b.factorTridiagonal()
	}
	w := b.width
	for i := range b.diagonal {
		row := b.lower[i*w : i*w+w]
		d := b.diagonal[i]
		first := max(0, w-i) // entries left of column 0 are not there
		for k := first; k < w; k++ {
			j := i - w + k // column
			// Columns of row j that row i shares: row[first..k) against those of j.
			other := b.lower[j*w : j*w+w]
			shift := w - k
			b.scaled[k] = row[k] - dot(b.scaled[first:k], other[first+shift:])
		}
		for k := first; k < w; k++ {
			l := b.scaled[k] / b.diagonal[i-w+k]
			row[k] = l
			d -= l * b.scaled[k]
		}
		if !(d > 0) {
			return false
		}
		b.diagonal[i] = d
	}
	return true
}

func (b *Band) factorTridiagonal() bool {
	if !(b.diagonal[0] > 0) {
		return false
	}
	for i := 1; i < len(b.diagonal); i++ {
		a := b.lower[i]
		l := a / b.diagonal[i-1]
		b.lower[i] = l
		b.diagonal[i] -= l * a
		if !(b.diagonal[i] > 0) {
			return false
		}
	}
	return true
}

// Solve replaces x by the solution for the right-hand side x, after Factor.
func (b *Band) Solve(x []float64) {
	w, n := b.width, len(b.diagonal)
	x = x[:n]
	for i := range x {
		first := max(0, w-i)
		row := b.lower[i*w+first : i*w+w]
		x[i] -= dot(row, x[i-w+first:])
	}
	for i := range x {
		x[i] /= b.diagonal[i]
	}
	for i := n - 1; i >= 0; i-- {
		first := max(0, w-i)
		row := b.lower[i*w+first : i*w+w]
		above := x[i-w+first : i]
		s := x[i]
		for k, l := range row {
			above[k] -= l * s
		}
	}
}

// dot is Σ a·b over a's length, in two sums that a processor adds side by side.
func dot(a, b []float64) float64 {
	b = b[:len(a)]
	var even, odd float64
	i := 0
	for ; i+3 < len(a); i += 4 {
		even += a[i]*b[i] + a[i+2]*b[i+2]
		odd += a[i+1]*b[i+1] + a[i+3]*b[i+3]
	}
	for ; i < len(a); i++ {
		even += a[i] * b[i]
	}
	return even + odd
}
