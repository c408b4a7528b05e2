package parts

import (
	"strings"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/path/room"
	"hushwake/source/spectrum"
)

// Text shows what the box takes off, its air, what changes would do, and the box in every layout.
func (x *Boxes) Text(u form.Units) *form.Text {
	t, m := &form.Text{}, x.Shown
	s, a := m.box.Sound, m.box.Air
	t.Say("", "%s round %s, layout %s", s.Name, m.box.Names(), form.Quote(m.Layout))
	t.Blank()
	loss := form.BandTable("insertion loss, dB")
	loss.Add(form.BandCells("this box", s.Loss, 1)...)
	t.Table(loss)
	t.Blank()
	t.Say("", "It takes %.0f dB(A) off the engine's own noise. %s Small boxes as built measure %.0f to %.0f dB(A); %s.",
		spectrum.Whole(s.DBA), m.limit, s.Measured[0], s.Measured[1], room.SmallBoxesText)
	t.Blank()
	t.Table(airTable(a, m.box.Running, u))
	t.Blank()
	for _, v := range a.Verdicts {
		t.Say("", "%s", form.Sentence(u.Local(v.Text)))
	}
	if a.FanStopped != nil {
		t.Say("", "%s", form.Sentence(u.Local(a.FanStopped.Text)))
	}
	if s, err := m.box.Soak(); err == nil {
		t.Say("", "%s", form.Sentence(u.Local(s.Text)))
	}
	t.Say("", "The air in the box may reach %s: %s.", u.Show(a.Outside+a.AllowedRise, quantity.Temperature), a.AllowedWhy)
	if at, was := m.box.Running, m.before; at.Rise != was.Rise {
		t.Say("", "The readings of the file count in it: at the running duty %s after them, %s before.",
			u.Show(at.Outside+at.Rise, quantity.Temperature), u.Show(was.Outside+was.Rise, quantity.Temperature))
	}
	t.Line("\nWhat a change would do to the engine's own noise, below zero is quieter (3 dB is barely heard):\n")
	t.Table(changeTable(s, u))
	for _, seat := range m.seats {
		for _, b := range m.borne[seat] {
			SayHelps(t, b, seat, u)
		}
	}
	if len(x.All) > 1 {
		t.Line("\nThe box in every layout:\n")
		t.Table(x.everywhere(u))
	}
	return t
}

func airTable(a, running room.Air, u form.Units) *form.Table {
	air := form.NewTable("air at rated", ">has", ">needs")
	air.Add("through the inlet", u.Show(a.Flow, quantity.VolumeFlow), u.Show(a.Needed, quantity.VolumeFlow))
	burnt, cools := "  of it to burn", "  of it to carry off heat"
	if a.Needed < a.CoolingAir+a.CombustionAir/2 {
		burnt, cools = "to burn, by a pipe of its own", "to carry off heat, at rated"
	}
	air.Add(burnt, "", u.Show(a.CombustionAir, quantity.VolumeFlow))
	air.Add(cools, "", u.Show(a.CoolingAir, quantity.VolumeFlow))
	air.Add("inlet area", u.Show(a.InletArea, quantity.Area), u.Show(a.InletAreaNeeded, quantity.Area))
	air.Add("outlet area", u.Show(a.OutletArea, quantity.Area), u.Show(a.OutletAreaNeeded, quantity.Area))
	air.Add("velocity in the inlet", u.Show(a.InletVelocity, quantity.Speed), "")
	if !a.Airtight {
		air.Add("pressure drop", u.Draught(a.PressureDrop), "")
	}
	has := ""
	if a.Fan != nil {
		has = u.Draught(a.Fan.Pressure)
	}
	needs := u.Draught(a.FanPressure)
	if a.FanPressure > room.MostFan {
		needs = "no fan does it"
	}
	air.Add("fan pressure", has, needs)
	air.Add("heat to carry off", u.Heat(a.Heat), "")
	air.Add("  of it by the air that passes", u.Heat(a.ByAir), "")
	air.Add("  of it through the walls", u.Heat(a.ByWalls), "")
	if a.Kept >= 0.5 {
		air.Add("  not taken by air that hot", u.Heat(a.Kept), "")
	}
	air.Add("air in the box warmer by", u.Warmer(a.Rise), "")
	air.Add("  at the running duty by", u.Warmer(running.Rise), "")
	if a.Inlet > a.Outside+0.05 {
		air.Add("air that comes in", u.Show(a.Inlet, quantity.Temperature), "")
	}
	air.Add("air in the box", u.Show(a.Outside+a.Rise, quantity.Temperature), "")
	return air
}

func changeTable(s room.Performance, u form.Units) *form.Table {
	t := form.NewTable("change", ">dB(A) off", ">set dB(A)")
	for _, c := range s.Changes {
		t.Add(u.Local(c.Change), form.Whole(c.DBA), form.Signed(s.DBA-c.DBA))
	}
	return t
}

// everywhere is how the boxes do in every layout.
func (x *Boxes) everywhere(u form.Units) *form.Table {
	t := form.NewTable("layout", ">dB(A) off", ">air", ">warmer by", "verdict")
	for _, b := range x.All {
		var words []string
		for _, v := range b.box.Air.Verdicts {
			words = append(words, v.Code)
		}
		t.Add(b.Layout, form.Whole(b.box.Sound.DBA), u.Show(b.box.Air.Flow, quantity.VolumeFlow),
			u.Warmer(b.box.Air.Rise), strings.Join(words, ", "))
	}
	return t
}
