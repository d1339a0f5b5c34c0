package edit

import (
	"math"
	"strings"
	"testing"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func TestSetPart(t *testing.T) {
	b := newBench(t)
	f := b.place("fuse", 100, 100)
	b.place("fuse", 300, 100)
	set := func(change func(*schematic.Part)) func(*Tx) error {
		return func(tx *Tx) error { return SetPart(tx, f.ID, change) }
	}
	b.must(set(func(p *schematic.Part) { p.Label, p.Values = "pump", map[string]float64{"rating_amp": 15} }))
	b.must(set(func(p *schematic.Part) { p.Values["rating_amp"] = 20 })) // the copy is the caller's own
	b.must(set(func(p *schematic.Part) { delete(p.Values, "rating_amp") }))
	for _, c := range []struct {
		words  string
		change func(*schematic.Part)
	}{
		{"F2 is taken by another part", func(p *schematic.Part) { p.Name = " F2 " }},
		{"needs a designation", func(p *schematic.Part) { p.Name = " " }},
		{`has no value "colour"`, func(p *schematic.Part) { p.Values = map[string]float64{"colour": 1} }},
		{"not a usable number", func(p *schematic.Part) { p.Values = map[string]float64{"rating_amp": math.NaN()} }},
		{"not a usable number", func(p *schematic.Part) { p.Values = map[string]float64{"rating_amp": 1e12} }},
		{"not a build step", func(p *schematic.Part) { p.Build = "polished" }},
		{"loom is not in the document", func(p *schematic.Part) { p.Loom = schematic.ID{5} }},
		{"is negative", func(p *schematic.Part) { p.Housing = &schematic.Housing{RatedAmp: schematic.Some(-1)} }},
		{"quarter turns", func(p *schematic.Part) { p.Views[0].Turns = 7 }},
	} {
		b.refused(c.words, set(c.change))
	}
	b.must(set(func(p *schematic.Part) { p.ID, p.Mate = schematic.ID{9}, schematic.ID{9} })) // not theirs to set
}

func TestSetPartPins(t *testing.T) {
	b := newBench(t)
	u, f := b.place("unit", 100, 100), b.place("fuse", 800, 100)
	w := b.wire(at(u, "2"), at(f, "1"), geom.Pt(600, 150), geom.Pt(600, 0), geom.Pt(800, 0))
	b.must(func(tx *Tx) error { return AddState(tx, "run", schematic.EngineRunning) })
	state := b.Doc().States()[0].ID
	b.must(func(tx *Tx) error { return Switch(tx, state, u.ID, "2", "on") })
	b.must(func(tx *Tx) error { return Switch(tx, state, u.ID, "1", "on") })
	set := func(change func(*schematic.Part)) func(*Tx) error {
		return func(tx *Tx) error { return SetPart(tx, u.ID, change) }
	}
	b.must(set(func(p *schematic.Part) {
		p.Pins = append([]schematic.Pin{{Name: "0", Role: "input", Side: "right"}}, p.Pins...)
	}))
	p := b.Doc().Path(b.Doc().Wire(w.ID))
	if at, _, _ := b.Doc().EndAt(w, w.A); p[0] != at || !p.Orthogonal() || len(p) != 5 {
		t.Errorf("the wire does not follow the pin that moved down: %v", p)
	}
	b.refused("pin 2 still has W1", set(func(p *schematic.Part) { p.Pins = p.Pins[:2] }))
	b.must(set(func(p *schematic.Part) { p.Pins = p.Pins[2:] })) // 0 and 1 go
	if set := b.Doc().State(state).Set; len(set) != 1 || set[0].Item != "2" {
		t.Errorf("settings of pins that are gone: %v", set)
	}
	b.must(func(tx *Tx) error { return RenamePin(tx, u.ID, "2", "B7") })
	if w := b.Doc().Wire(w.ID); w.A.Pin != "B7" {
		t.Errorf("the wire is still at pin %s", w.A.Pin)
	}
	if set := b.Doc().State(state).Set; set[0].Item != "B7" {
		t.Errorf("the setting is still of pin %s", set[0].Item)
	}
	b.refused("only a part's own pins", func(tx *Tx) error { return RenamePin(tx, f.ID, "1", "7") })
	b.refused("needs a name", func(tx *Tx) error { return RenamePin(tx, u.ID, "B7", " ") })
}

func TestRenamePinOfMatedHalves(t *testing.T) {
	b := newBench(t)
	p := b.place("plug", 100, 100)
	b.must(func(tx *Tx) error { return RenamePin(tx, p.ID, "1", "A") })
	if q := b.Doc().Part(p.Mate); q.Pins[0].Name != "A" {
		t.Errorf("the mate's cavity is still %s", q.Pins[0].Name)
	}
	b.refused("already has a pin A", func(tx *Tx) error { return RenamePin(tx, p.ID, "2", "A") })
}

func TestSetWire(t *testing.T) {
	b := newBench(t)
	f := b.place("fuse", 100, 100)
	w := b.wire(at(f, "1"), loose(500, 0))
	b.wire(at(f, "2"), loose(500, 300))
	set := func(change func(*schematic.Wire)) func(*Tx) error {
		return func(tx *Tx) error { return SetWire(tx, w.ID, change) }
	}
	b.must(set(func(w *schematic.Wire) {
		w.Size, w.Color, w.LengthMM = unit.GaugeAWG(18), schematic.Color{Base: "BU", Tracer: "RD"}, schematic.Some(1200)
	}))
	before := b.Doc().Path(b.Doc().Wire(w.ID))
	b.must(set(func(w *schematic.Wire) { w.A, w.Via, w.Notes = schematic.End{}, []geom.Point{{X: 7}}, "kept" }))
	equalText(t, "where it runs is not a field", b.drawn(w), pathText(before))
	for _, c := range []struct {
		words  string
		change func(*schematic.Wire)
	}{
		{"W2 is taken by another wire", func(w *schematic.Wire) { w.Name = "W2" }},
		{"F1 is taken by another part", func(w *schematic.Wire) { w.Name = "F1" }},
		{"needs a designation", func(w *schematic.Wire) { w.Name = "" }},
		{"size does not exist", func(w *schematic.Wire) { w.Size = unit.GaugeAWG(99) }},
		{"not a wire colour", func(w *schematic.Wire) { w.Color = schematic.Color{Base: "MAUVE"} }},
		{"not a wire colour", func(w *schematic.Wire) { w.Color = schematic.Color{Tracer: "RD"} }},
		{"length: -5 is negative", func(w *schematic.Wire) { w.LengthMM = schematic.Some(-5) }},
		{"joint at end B", func(w *schematic.Wire) { w.B.JointOhm = schematic.Some(-1) }},
		{"no temperature class", func(w *schematic.Wire) { w.TempC = schematic.Some(-300) }},
		{"not a conductor metal", func(w *schematic.Wire) { w.Metal = "gold" }},
		{"loom is not in the document", func(w *schematic.Wire) { w.Loom = schematic.ID{5} }},
		{"route names a segment", func(w *schematic.Wire) { w.Route = []schematic.ID{{5}} }},
		{"no such twist group", func(w *schematic.Wire) { w.Twist = schematic.ID{5} }},
		{"not a build step", func(w *schematic.Wire) { w.Build = "blessed" }},
	} {
		b.refused(c.words, set(c.change))
	}
}

func TestSheets(t *testing.T) {
	b := newBench(t)
	b.must(func(tx *Tx) error { return AddSheet(tx, "") })
	b.must(func(tx *Tx) error { return AddSheet(tx, "Cabin") })
	tabs := func() string {
		var names []string
		for _, s := range b.Doc().Sheets() {
			names = append(names, s.Name)
		}
		return strings.Join(names, ", ")
	}
	equalText(t, "tabs", tabs(), "Engine, Sheet 2, Cabin")
	cabin := b.Doc().Sheets()[2].ID
	b.must(func(tx *Tx) error { return MoveSheet(tx, cabin, 0) })
	equalText(t, "tabs", tabs(), "Cabin, Engine, Sheet 2")
	b.must(func(tx *Tx) error { return MoveSheet(tx, cabin, 99) })
	equalText(t, "tabs", tabs(), "Engine, Sheet 2, Cabin")
	b.must(func(tx *Tx) error { return RenameSheet(tx, cabin, " Dashboard ") })
	equalText(t, "tabs", tabs(), "Engine, Sheet 2, Dashboard")
	b.refused("another sheet is named", func(tx *Tx) error { return RenameSheet(tx, cabin, "Engine") })
	b.refused("another sheet is named", func(tx *Tx) error { return AddSheet(tx, "Engine") })
	b.refused("needs a name", func(tx *Tx) error { return RenameSheet(tx, cabin, "") })
	b.refused("10 m wide", func(tx *Tx) error { return SetSheet(tx, cabin, func(s *schematic.Sheet) { s.Width = 1 << 30 }) })
}

func TestNotes(t *testing.T) {
	b := newBench(t)
	b.must(func(tx *Tx) error { return AddNote(tx, b.sheet, geom.Pt(0, 0), 0, 0, "mind the fan") })
	id := b.Selection()[0].ID
	b.must(func(tx *Tx) error { return SetNote(tx, id, func(n *schematic.Note) { n.Size = 50 }) })
	b.refused("is empty", func(tx *Tx) error { return SetNote(tx, id, func(n *schematic.Note) { n.Text = " " }) })
	b.refused("negative", func(tx *Tx) error { return AddNote(tx, b.sheet, geom.Point{}, -1, 5, "x") })
	b.must(func(tx *Tx) error { return AddNote(tx, b.sheet, geom.Pt(0, 0), 500, 300, "") }) // a frame needs no name
}

func TestStates(t *testing.T) {
	b := newBench(t)
	s, e, u := b.place("switch", 100, 100), b.place("lamp", 300, 100), b.place("unit", 500, 500)
	b.must(func(tx *Tx) error { return AddState(tx, "parked", "") })
	b.must(func(tx *Tx) error { return AddState(tx, "running", schematic.EngineRunning) })
	run := b.Doc().States()[1].ID
	b.must(func(tx *Tx) error { return Switch(tx, run, s.ID, "", "on") })
	b.must(func(tx *Tx) error { return Switch(tx, run, u.ID, "2", "on") })
	b.must(func(tx *Tx) error { return SetDuty(tx, run, e.ID, "", schematic.Some(0.5)) })
	b.must(func(tx *Tx) error { return Switch(tx, run, s.ID, "", "off") })
	if set := b.Doc().State(run).Set; len(set) != 3 || set[0].Position != "off" {
		t.Errorf("settings %v", set)
	}
	b.must(func(tx *Tx) error { return Switch(tx, run, s.ID, "", "") })
	b.must(func(tx *Tx) error { return SetDuty(tx, run, e.ID, "", schematic.Num{}) })
	if set := b.Doc().State(run).Set; len(set) != 1 || set[0].Item != "2" {
		t.Errorf("defaults leave no setting: %v", set)
	}
	for _, c := range []struct {
		words string
		do    func(*Tx) error
	}{
		{`has no position "half"`, func(tx *Tx) error { return Switch(tx, run, s.ID, "", "half") }},
		{"not a share of time", func(tx *Tx) error { return SetDuty(tx, run, e.ID, "", schematic.Some(2)) }},
		{`no pin or element "9"`, func(tx *Tx) error { return Switch(tx, run, u.ID, "9", "on") }},
		{"another operating state", func(tx *Tx) error { return AddState(tx, "parked", "") }},
		{"needs a name", func(tx *Tx) error { return AddState(tx, " ", "") }},
		{"not an engine state", func(tx *Tx) error {
			return SetState(tx, run, func(s *schematic.State) { s.Engine = "purring" })
		}},
		{"no longer there", func(tx *Tx) error { return Switch(tx, schematic.ID{8}, s.ID, "", "on") }},
		{"no longer there", func(tx *Tx) error { return Switch(tx, run, schematic.ID{8}, "", "on") }},
	} {
		b.refused(c.words, c.do)
	}
}

func TestSetInfo(t *testing.T) {
	b := newBench(t)
	b.must(func(tx *Tx) error {
		return SetInfo(tx, func(i *schematic.Info) {
			i.Title, i.SystemVolt, i.Limits = "fan loom", schematic.Some(24), map[string]float64{"drop": 0.03}
		})
	})
	b.must(func(tx *Tx) error { return SetInfo(tx, func(i *schematic.Info) { i.Limits["drop"] = 0.05 }) })
	b.refused("not a system voltage", func(tx *Tx) error {
		return SetInfo(tx, func(i *schematic.Info) { i.SystemVolt = schematic.Some(-12) })
	})
	b.refused("limit drop", func(tx *Tx) error {
		return SetInfo(tx, func(i *schematic.Info) { i.Limits["drop"] = math.Inf(1) })
	})
}

func TestLooms(t *testing.T) {
	b := newBench(t)
	f := b.place("fuse", 100, 100)
	w := b.wire(at(f, "1"), loose(100, 0))
	b.must(func(tx *Tx) error { return AddLoom(tx, "") })
	b.refused("F1 is taken", func(tx *Tx) error { return AddLoom(tx, "F1") })
	var loom *schematic.Loom
	for l := range b.Doc().Looms() {
		loom = l
	}
	n1, n2, seg := schematic.ID{1, 1}, schematic.ID{1, 2}, schematic.ID{1, 3}
	b.must(func(tx *Tx) error {
		return SetLoom(tx, loom.ID, func(l *schematic.Loom) {
			l.Nodes = []schematic.Node{{ID: n1, Name: "bulkhead"}, {ID: n2, Name: "fan"}}
			l.Segments = []schematic.Segment{{ID: seg, From: n1, To: n2, LengthMM: schematic.Some(700)}}
		})
	})
	b.must(func(tx *Tx) error {
		return SetWire(tx, w.ID, func(w *schematic.Wire) { w.Loom, w.Route = loom.ID, []schematic.ID{seg} })
	})
	b.must(func(tx *Tx) error {
		return SetPart(tx, f.ID, func(p *schematic.Part) { p.Loom, p.Node = loom.ID, n2 })
	})
	for _, c := range []struct {
		words  string
		change func(*schematic.Loom)
	}{
		{"W1 runs through a segment that would go", func(l *schematic.Loom) { l.Segments = nil }},
		{"needs a node at both ends", func(l *schematic.Loom) { l.Nodes = l.Nodes[:1] }},
		{"same node", func(l *schematic.Loom) { l.Segments[0].To = n1 }},
		{"negative", func(l *schematic.Loom) { l.Segments[0].LengthMM = schematic.Some(-1) }},
		{"same ID", func(l *schematic.Loom) { l.Nodes[1].ID = n1 }},
		{"needs a name", func(l *schematic.Loom) { l.Name = "" }},
	} {
		b.refused(c.words, func(tx *Tx) error { return SetLoom(tx, loom.ID, c.change) })
	}
	more := b.wire(at(f, "2"), Anchor{At: geom.Pt(100, 100)})
	b.must(func(tx *Tx) error { return LeadThrough(tx, []schematic.ID{more.ID}, loom.ID, []schematic.ID{seg}) })
	b.refused("W1 and 1 more of its wires run through what would go", func(tx *Tx) error { return DeleteSegments(tx, loom.ID, []schematic.ID{seg}) })
	b.must(func(tx *Tx) error { return Delete(tx, []schematic.Key{more.Key()}) })
	b.must(func(tx *Tx) error { return SetWire(tx, w.ID, func(w *schematic.Wire) { w.Loom = schematic.ID{} }) })
	if r := b.Doc().Wire(w.ID).Route; r != nil {
		t.Errorf("a wire without a loom is still routed along %v", r)
	}
	b.refused("F1 sits at a node that would go", func(tx *Tx) error {
		return SetLoom(tx, loom.ID, func(l *schematic.Loom) { l.Nodes, l.Segments = l.Nodes[:1], nil })
	})
}
