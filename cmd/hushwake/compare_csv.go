package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
)

// printCompareCSV writes a row per layout and listener.
func printCompareCSV(out io.Writer, w *worked) error {
	c := csv.NewWriter(out)
	c.Write([]string{"layout", "listener", "level_dba", "low_dba", "high_dba", "rated_back_pressure_kpa", "limit_kpa", "refused", "price"})
	for j, l := range w.boat.Listeners {
		for _, i := range w.order(j) {
			p, h := &w.predictions[i], w.spread.Layouts[i].Listeners[j]
			var bp, limit *float64
			if e := w.worstExhaust(i); e >= 0 {
				bp, limit = num(w.spread.Layouts[i].Exhausts[e].Rated/1e3), numOr(p.Exhausts[e].Limit, 1e-3)
			}
			c.Write([]string{p.Layout.Name, l.Name, field(level(h.Level)), field(level(h.Low)), field(level(h.High)),
				field(bp), field(limit), strconv.FormatBool(p.Refused), field(p.Layout.Price)})
		}
	}
	c.Flush()
	return writeError(c.Error())
}

// field prints a number that may not exist; empty when it does not.
func field(v number) string {
	if v == nil {
		return ""
	}
	return strconv.FormatFloat(*v, 'g', 10, 64)
}

// writeError turns an error of the output into an exit status.
func writeError(err error) error {
	if err == nil {
		return nil
	}
	return failed("%w", fmt.Errorf("writing the output: %w", err))
}
