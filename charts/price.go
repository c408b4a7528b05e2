package charts

import (
	"fmt"
	"strings"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"hushwake/path/report"
)

// priceSection shows what each layout costs and the room it takes.
func priceSection(r *report.Page, u unitSet) section {
	s := section{ID: "price", Title: "Price and space", Lead: []string{
		"A missing price is not a low one: no bar means that nobody stated it. Length and mass are of the whole exhaust line, bends, hoses and silencers together."}}
	money := currency(r)
	price := barFigure(r, "price-money", "Price", money, func(l report.PageLayout) *float64 { return money.shown(l.Price) }, money)
	length := barFigure(r, "price-length", "Length", u.length, func(l report.PageLayout) *float64 { return u.length.shown(l.LengthM) }, u.length)
	s.Figures, s.Tables = []figure{price, length}, []table{priceTable(r, u, money)}
	return s
}

func currency(r *report.Page) quantity {
	unit := r.Currency
	if unit == "" {
		unit = "currency units"
	}
	return quantity{unit: unit, factor: 1}
}

// barFigure is one bar for each layout that has a value, a remark for each that has none.
func barFigure(r *report.Page, id, title string, q quantity, value func(report.PageLayout) *float64, printed quantity) figure {
	f := figure{ID: id, Title: title + ", " + q.unit, Height: 64 + 46*len(r.Layouts),
		Note: "The values stand in the table below."}
	plain := quantity{unit: printed.unit, factor: 1, decimals: printed.decimals}
	var x extent
	var rows, right, said []string
	var data []opts.BarData
	for i, l := range r.Layouts {
		v := value(l)
		x.take(v)
		rows = append(rows, titled(r, i))
		text := "not stated"
		if v != nil {
			text = plain.bare(v)
		}
		right = append(right, text)
		said = append(said, titled(r, i)+": "+text)
		data = append(data, opts.BarData{Value: orGap(v), Name: titled(r, i) + "\n" + text + " " + q.unit, ItemStyle: &opts.ItemStyle{Color: lookOf(i).paint()}})
	}
	if !x.any {
		f.Empty = "No layout states its " + strings.ToLower(title) + ", so there is no chart."
		return f
	}
	f.Alt = title + " by layout, in " + q.unit + ". " + strings.Join(said, "; ") + "."
	p := newPlot("rows", q.unit, valueX(shortened(q.unit, 30), x.fromZero()), rowsY(rows))
	p.ExtendYAxis(rightY(right))
	p.grid(14, 8, 28, 10)
	p.add(echarts.SingleSeries{Name: title, Type: "bar", Data: data, BarWidth: "14"})
	f.Plot = p
	return f
}

func priceTable(r *report.Page, u unitSet, money quantity) table {
	t := table{Caption: "Price and space by layout", Head: []string{"Layout", "price, " + money.unit, "price remarks", "length, " + u.length.unit,
		"mass, " + u.mass.unit, "fits", "space remarks", "lead time"}}
	for i, l := range r.Layouts {
		t.Rows = append(t.Rows, []cell{words(titled(r, i)), num(money.bare(l.Price)), words(l.PriceNote), num(u.length.bare(l.LengthM)),
			num(u.mass.bare(l.MassKG)), words(fits(l.Fits)), words(l.SpaceNote), words(l.LeadTime)})
	}
	return told(t)
}

func fits(b *bool) string {
	if b == nil {
		return "no envelope stated"
	}
	return yes(*b)
}

// refusedList says in words which layouts are out, and why.
func refusedList(r *report.Page) list {
	l := list{Title: "Refused layouts"}
	for i, y := range r.Layouts {
		if !y.Refused {
			continue
		}
		why := "No reason was handed over."
		if len(y.Refusals) > 0 {
			why = strings.Join(y.Refusals, " ")
		}
		l.Items = append(l.Items, item{Kind: "refused", Text: fmt.Sprintf("%s · %s. %s", tag(i), y.Name, why)})
	}
	return l
}
