package rosenbrock

// combine writes base + scale·Σ weight_j·u_j into to, which may be base.
func combine(to, base, weight []float64, u [][]float64, scale float64) {
	from := base
	j := 0
	// Two at a time: one pass over memory for both.
	for ; j+1 < len(weight); j += 2 {
		p, q := scale*weight[j], scale*weight[j+1]
		x, z := u[j][:len(to)], u[j+1][:len(to)]
		from = from[:len(to)]
		for i := range to {
			to[i] = from[i] + (p*x[i] + q*z[i])
		}
		from = to
	}
	if j < len(weight) {
		p, x := scale*weight[j], u[j][:len(to)]
		from = from[:len(to)]
		for i := range to {
			to[i] = from[i] + p*x[i]
		}
	}
}
