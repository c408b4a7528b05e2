package record

import "hushwake/path/boatfile"

// Options of a run; zero means the usual.
type Options struct {
	Samples, Draws int
	Seed           uint64
}

// Row is one measured figure beside its prediction, dB.
type Row struct {
	boatfile.CaseRow
	Case                 *boatfile.Case
	Predicted, LowP, Top float64 // median, 10th and 90th percentile over inputs and terms
	Deviation            float64 // predicted less measured; of a limit, by how much the median breaks it
	Inside, Far          bool
	Octaves              []Octave // where octaves were measured
}

// Octave is one octave of a row, shown and not counted.
type Octave struct {
	Hertz                          float64
	Measured, Predicted, LowP, Top float64
	Inside                         bool
}

// Counted tells whether the row is evidence: none that ever set a constant is.
func (r *Row) Counted() bool { return r.SetsConstant == "" }

// Limit tells whether the row is a limit and no reading.
func (r *Row) Limit() bool { return r.Low == nil || r.High == nil }

// Measured is the reading, the middle of a range, or the limit.
func (r *Row) Measured() float64 {
	switch {
	case r.Low == nil:
		return *r.High
	case r.High == nil:
		return *r.Low
	}
	return (*r.Low + *r.High) / 2
}

// Sum is how a number of rows came out, dB. Limits count on their own side: not in bias and spread, and in
// the share inside with nine of ten and more where a reading counts with eight.
type Sum struct {
	Group        string
	N, Limits    int
	Inside, Kept int      // rows inside, and the limits among them
	Bias, Spread *float64 // mean and standard deviation of predicted less measured; nil = too few readings
}

// Share is the share of the rows that lie inside the 80 % band, nil without rows.
func (s Sum) Share() *float64 {
	if s.N == 0 {
		return nil
	}
	v := float64(s.Inside) / float64(s.N)
	return &v
}

// ReadingsShare is the share of the readings, limits left out, that lie inside, nil without readings.
func (s Sum) ReadingsShare() *float64 {
	return Sum{N: s.N - s.Limits, Inside: s.Inside - s.Kept}.Share()
}

// Report is the outcome of a run.
type Report struct {
	Options Options
	Rows    []Row
	Groups  []Sum // of the counted rows, in the order of boatfile.CaseGroups
	All     Sum   // of all counted rows
	Set     Sum   // of the rows that set a constant, which prove nothing
}

// Far lists the rows that lie far outside.
func (rep *Report) Far() (rows []Row) {
	for _, r := range rep.Rows {
		if r.Far {
			rows = append(rows, r)
		}
	}
	return rows
}
