package lines

import (
	"fmt"

	"github.com/google/jsonschema-go/jsonschema"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/schema"
	"hushwake/silencer"
	"hushwake/source/said"
)

func (e *element) chamber() (silencer.Element, []field) {
	c := &silencer.Chamber{}
	l := schema.Quantity(quantity.Length)
	tube := schema.Mapping("a tube through a baffle", schema.Fields{"bore": l, "wall": l, "reaches": schema.Lengths("how far it stands in the room before and after", 2, 2)})
	joint := &jsonschema.Schema{AnyOf: []*jsonschema.Schema{tube, schema.List(tube, 1, 20)}}
	return c, []field{
		length("inlet_bore", &c.InletBore, decode.UpTo(3)).by(e.neighbour, "that of the pipe before it", 1),
		length("outlet_bore", &c.OutletBore, decode.UpTo(3)).by(func() float64 { return c.InletBore }, "that of its inlet", 1),
		length("bore", &c.Bore, decode.UpTo(10)).by(func() float64 { return 3 * c.InletBore }, decode.Practice+": three pipe bores", 5),
		{keys: schema.Fields{"length": l, "rooms": schema.Lengths("lengths", 1, 10), "baffle": l, "joined_by": schema.List(joint, 1, 20)},
			taken: "one room of three times its bore", read: func(e *element) { e.rooms(c) }},
		length("inlet_extension", &c.InletExtension, decode.NotNegative).or(0, "taken as flush", 3),
		length("outlet_extension", &c.OutletExtension, decode.NotNegative).or(0, "taken as flush", 3),
		length("tube_wall", &c.TubeWall, decode.Limits{Min: 0, Max: 0.05}).or(0.002, decode.Practice, 0),
		length("wall", &c.Wall, decode.UpTo(0.05)).or(0.002, decode.Practice, 0),
		length("inlet_offset", &c.InletOffset, decode.NotNegative),
		length("outlet_offset", &c.OutletOffset, decode.NotNegative),
		metal(&c.Common, "mild steel", 0),
		step(func(e *element) {
			e.chamberFits(c)
			e.l.bore = c.OutletBore
		}),
	}
}

// rooms reads length, or rooms with what joins them.
func (e *element) rooms(c *silencer.Chamber) {
	o, r := e.o, e.l.Common
	joined := r.List(o.Get("joined_by"), o.Path+" joined_by", 1, 20)
	if rooms := o.Get("rooms"); rooms != nil {
		c.Rooms = r.Lengths(rooms, o.Path+" rooms", 1, 10, decode.UpTo(20))
		if o.Has("length") {
			r.Wrong(o.Get("length"), "keep rooms", "%s states both length and rooms", o.Path)
		}
	} else {
		e.roomsAssumed(c, len(joined))
	}
	o.Raw("length")
	if len(c.Rooms) < 2 {
		if o.Has("joined_by") && len(c.Rooms) == 1 {
			r.Wrong(o.Get("joined_by"), "give rooms: [400 mm, 500 mm]", "%s has one room; nothing can be joined", o.Path)
		}
		c.Baffle, _ = o.Value("baffle", decode.NotNegative, quantity.Length)
		return
	}
	length("baffle", &c.Baffle, decode.UpTo(0.1)).or(0.003, decode.Practice, 0).read(e)
	e.joints(c, joined)
}

// roomsAssumed takes one room of the stated length, or as many equal ones as the joints ask for.
func (e *element) roomsAssumed(c *silencer.Chamber, joints int) {
	if joints == 0 || e.o.Has("length") {
		c.Rooms = []float64{0}
		length("length", &c.Rooms[0], decode.UpTo(20)).or(3*c.Bore, decode.Practice+": three times its bore", 5).read(e)
		return
	}
	for range joints + 1 {
		c.Rooms = append(c.Rooms, 1.5*c.Bore)
	}
	e.fill("rooms", fmt.Sprintf("%d of %s", joints+1, quantity.Said(1.5*c.Bore, quantity.Length)), decode.Practice+": 1.5 bores each", 5)
}

// joints reads the tubes through each baffle: one entry per baffle, either a tube or a list of tubes.
func (e *element) joints(c *silencer.Chamber, joined []*decode.Node) {
	baffles := len(c.Rooms) - 1
	if !e.o.Has("joined_by") {
		for range baffles {
			c.JoinedBy = append(c.JoinedBy, []silencer.Tube{{Bore: c.InletBore, Wall: 0.002}})
		}
		e.fill("joined_by", "bare holes of the inlet's bore", decode.Practice, 3)
		return
	}
	if baffles == 1 && len(joined) > 1 {
		joined = []*decode.Node{{Kind: decode.Sequence, Items: joined, Line: joined[0].Line, Column: joined[0].Column}}
	}
	if len(joined) != baffles {
		e.l.Common.Wrong(e.o.Get("joined_by"), "one entry for each baffle; several tubes through one baffle go in a list of their own",
			"%s: %d rooms have %d baffles, but joined_by has %d entries", e.o.Path, len(c.Rooms), baffles, len(joined))
		return
	}
	for i, item := range joined {
		tubes := []*decode.Node{item}
		if item.Kind == decode.Sequence {
			tubes = item.Items
		}
		var set []silencer.Tube
		for _, t := range tubes {
			set = append(set, e.tube(t, c, i))
		}
		c.JoinedBy = append(c.JoinedBy, set)
	}
}

func (e *element) tube(n *decode.Node, c *silencer.Chamber, baffle int) silencer.Tube {
	r := e.l.Common
	o := r.Object(n, fmt.Sprintf("%s.joined_by[%d]", e.o.Path, baffle+1))
	t := silencer.Tube{Bore: e.part(o, "bore", c.InletBore, "bore of joining tubes")}
	if t.Wall, _ = o.Value("wall", decode.NotNegative, quantity.Length); !o.Has("wall") {
		t.Wall = 0.002
		e.fill("wall of joining tubes", said.Textf("{2 mm}"), decode.Practice, 0)
	}
	reaches := r.Lengths(o.Get("reaches"), o.Path+" reaches", 2, 2, decode.NotNegative)
	if len(reaches) == 2 {
		t.Before, t.After = reaches[0], reaches[1]
	} else if !o.Has("reaches") {
		e.fill("reaches of joining tubes", said.Textf("{0 mm}: bare holes"), decode.Practice, 3)
	}
	o.Done()
	if t.Bore > 0 && c.Bore > 0 && t.Bore+2*t.Wall >= c.Bore {
		r.Wrong(o.Get("bore"), "", "%s: a joining tube of %s does not fit in a chamber of %s", o.Path, quantity.Format(t.Bore, quantity.Length, quantity.Metric), quantity.Format(c.Bore, quantity.Length, quantity.Metric))
	}
	return t
}

// chamberFits checks what must fit inside the shell.
func (e *element) chamberFits(c *silencer.Chamber) {
	r, o := e.l.Common, e.o
	if len(c.Rooms) == 0 || c.Bore <= 0 {
		return
	}
	e.portsFit(c)
	e.reach("inlet_extension", c.InletExtension+joint(c, 0, true), c.Rooms[0])
	last := len(c.Rooms) - 1
	e.reach("outlet_extension", c.OutletExtension+joint(c, last-1, false), c.Rooms[last])
	if sum := c.InletExtension + c.OutletExtension; last == 0 && c.InletExtension < c.Rooms[0] && c.OutletExtension < c.Rooms[0] && sum > c.Rooms[0]*1.000001 {
		r.Wrong(e.at("outlet_extension", "inlet_extension"), "", "%s: inlet and outlet extension together (%s) are longer than the chamber (%s)", o.Path,
			quantity.Format(sum, quantity.Length, quantity.Metric), quantity.Format(c.Rooms[0], quantity.Length, quantity.Metric))
	}
	for i := 1; i < last; i++ {
		e.reach("joined_by", joint(c, i-1, false)+joint(c, i, true), c.Rooms[i])
	}
}

// portsFit checks that inlet and outlet are smaller than the shell and stand inside it.
func (e *element) portsFit(c *silencer.Chamber) {
	r, o := e.l.Common, e.o
	for _, p := range []struct {
		key          string
		bore, offset float64
	}{{"inlet_bore", c.InletBore, c.InletOffset}, {"outlet_bore", c.OutletBore, c.OutletOffset}} {
		switch {
		case p.key == "outlet_bore" && !o.Has(p.key): // then it is that of the inlet
		case p.bore >= c.Bore:
			r.Wrong(e.at(p.key, "bore"), "the chamber's bore is the inside of its shell", "%s: the %s %s is not smaller than the chamber's bore %s", o.Path, Spoken(p.key), quantity.Format(p.bore, quantity.Length, quantity.Metric), quantity.Format(c.Bore, quantity.Length, quantity.Metric))
		case p.offset+p.bore/2 > c.Bore/2*1.0001:
			r.Wrong(e.at(p.key[:len(p.key)-5]+"_offset"), "", "%s: with that offset the port stands outside the shell", o.Path)
		}
	}
}

// joint is how far the tubes of a baffle stand in the room before (or after) it.
func joint(c *silencer.Chamber, baffle int, before bool) float64 {
	if baffle < 0 || baffle >= len(c.JoinedBy) {
		return 0
	}
	reach := 0.0
	for _, t := range c.JoinedBy[baffle] {
		if before {
			reach = max(reach, t.Before)
		} else {
			reach = max(reach, t.After)
		}
	}
	return reach
}

// reach refuses tubes longer than the room they stand in.
func (e *element) reach(key string, tubes, room float64) {
	if tubes >= room {
		e.l.Common.Wrong(e.at(key, "joined_by"), "", "%s: the tubes in a room of %s reach %s; they must end before its far wall", e.o.Path,
			quantity.Format(room, quantity.Length, quantity.Metric), quantity.Format(tubes, quantity.Length, quantity.Metric))
	}
}

// Spoken is a key in words.
func Spoken(key string) string {
	b := []byte(key)
	for i, c := range b {
		if c == '_' {
			b[i] = ' '
		}
	}
	return string(b)
}
