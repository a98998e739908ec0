package rosenbrock

// Nodes is temporary.
func (m *Tableau) Nodes() []float64 { return m.nodes }
