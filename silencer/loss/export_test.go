package loss

// WithLagging puts a material into the table until it is taken back.
func WithLagging(m LaggingMaterial) (back func()) {
	laggingTable[m.Material] = m
	return func() { delete(laggingTable, m.Material) }
}
