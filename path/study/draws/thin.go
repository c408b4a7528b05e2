package draws

// Thin is the sample in every nth draw; of is its ensemble, thinned likewise.
func (s Sample) Thin(n int, of *Ensemble) Sample {
	return Sample{Levels: thinRows(s.Levels, n), Factors: thinRows(s.Factors, n), of: of}
}

func thinRows(all [][][]float64, n int) [][][]float64 {
	out := make([][][]float64, len(all))
	for i, rows := range all {
		out[i] = make([][]float64, len(rows))
		for j, row := range rows {
			for d := 0; d < len(row); d += n {
				out[i][j] = append(out[i][j], row[d])
			}
		}
	}
	return out
}
