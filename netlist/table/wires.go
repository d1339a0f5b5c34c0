package table

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// Wires returns the table of all wires.
func Wires(f Facts) *Table {
	t := &Table{Noun: "wire", Facts: f, Columns: wireColumns()}
	for _, w := range slices.SortedFunc(f.Doc.Wires(), schematic.CompareItems) {
		t.Rows = append(t.Rows, Row{Key: w.Key()})
	}
	t.about(itemsOf(schematic.TypeWire))
	return t
}

func wireColumns() []Column {
	name := wireText("wire", "Wire", 7, "designation", "The designation of the wire", func(w *schematic.Wire) *string { return &w.Name })
	name.Names = true
	return []Column{
		name,
		wireEnd("from", "From", edit.EndA),
		wireEnd("to", "To", edit.EndB),
		{ID: "colour", Title: "Colour", Letters: 10, Help: "Insulation, as a code such as BK or BU/WH", Editable: true,
			text: func(t *Table, r Row) string { return t.wire(r).Color.String() }, set: wireCell(readColor)},
		{ID: "size", Title: "Size", Letters: 10, Number: true, Help: "Conductor size: mm², AWG or SAE", Editable: true,
			text:  func(t *Table, r Row) string { return sizeText(t.wire(r).Size) },
			value: func(t *Table, r Row) (float64, bool) { return t.wire(r).Size.AreaMM2() },
			set:   wireCell(readSize)},
		wireText("insulation", "Insulation", 9, "insulation", "Insulation family: FLRY, TXL …", func(w *schematic.Wire) *string { return &w.Insulation }),
		{ID: "length", Title: "Length", Letters: 14, Number: true, Editable: true,
			Help:  "Length as measured; where none was, the length of the route with the slack is shown",
			text:  lengthText,
			input: func(t *Table, r Row) string { return t.length(t.wire(r).LengthMM) },
			value: func(t *Table, r Row) (float64, bool) { n, _ := netlist.LengthOf(t.Doc, t.wire(r)); return n.Get() },
			set:   wireCell(readLength)},
		wireText("circuit", "Circuit", 16, "circuit", "What the wire is for", func(w *schematic.Wire) *string { return &w.Circuit }),
		{ID: "loom", Title: "Loom", Letters: 10, Help: "The sub-harness the wire belongs to; empty is none", Editable: true,
			text: func(t *Table, r Row) string { return schematic.NameOf(t.Doc.Get(loomKey(t.wire(r).Loom))) }, set: setLoom},
		{ID: "route", Title: "Route", Letters: 16, Help: "The segments of its loom from end A to end B, with commas between", Editable: true, text: routeText, set: setRoute},
		{ID: "current", Title: "Current", Letters: 9, Number: true, Help: "What the wire carries in the operating state looked at",
			text: currentText, value: wireAmp},
		{ID: "loss", Title: "Volts lost", Letters: 9, Number: true, Help: "What is lost along the wire and its joints in the operating state looked at",
			text: lossText, value: wireLoss},
		finding(),
		{ID: "built", Title: "Built", Letters: 10, Help: "How far the real wire has come: planned, cut, terminated, sleeved, fitted, tested or parked", Editable: true,
			text: func(t *Table, r Row) string { return buildText(t.wire(r).Build) }, set: wireCell(readBuild)},
		wireText("terminal-a", "Terminal at from", 14, "terminal at its first end", "What is crimped on at the first end", func(w *schematic.Wire) *string { return &w.A.Terminal }),
		wireText("seal-a", "Seal at from", 12, "seal at its first end", "The wire seal at the first end", func(w *schematic.Wire) *string { return &w.A.Seal }),
		wireText("terminal-b", "Terminal at to", 14, "terminal at its second end", "What is crimped on at the second end", func(w *schematic.Wire) *string { return &w.B.Terminal }),
		wireText("seal-b", "Seal at to", 12, "seal at its second end", "The wire seal at the second end", func(w *schematic.Wire) *string { return &w.B.Seal }),
		{ID: "slack", Title: "Slack", Letters: 9, Number: true, Editable: true, Help: "What is added to the length of the route, both ends together",
			text:  func(t *Table, r Row) string { return t.length(t.wire(r).SlackMM) },
			value: func(t *Table, r Row) (float64, bool) { return t.wire(r).SlackMM.Get() },
			set:   wireCell(readSlack)},
		{ID: "metal", Title: "Metal", Letters: 13, Editable: true, Help: "Metal of the conductor: tinned copper or aluminium; empty is copper",
			text: func(t *Table, r Row) string { return string(t.wire(r).Metal) }, set: wireCell(readMetal)},
		{ID: "class", Title: "Temperature class", Letters: 13, Number: true, Editable: true, Help: "What its insulation bears for good; empty is that of the insulation family",
			text: func(t *Table, r Row) string {
				if v, ok := t.wire(r).TempC.Get(); ok {
					return unit.Exact(unit.Temp, v)
				}
				return ""
			},
			value: func(t *Table, r Row) (float64, bool) { return t.wire(r).TempC.Get() },
			set:   wireCell(readClass)},
		wireText("notes", "Notes", 24, "notes", "What else is to be said", func(w *schematic.Wire) *string { return &w.Notes }),
		{ID: "sheet", Title: "Sheet", Letters: 12, Help: "The sheet the wire is drawn on", text: func(t *Table, r Row) string { return t.sheetName(t.wire(r).Sheet) }},
	}
}

// wireText is a column for a plain text of a wire.
func wireText(id, title string, letters int, what, help string, at func(*schematic.Wire) *string) Column {
	return Column{ID: id, Title: title, Letters: letters, Help: help, Editable: true,
		text: func(t *Table, r Row) string { c := *t.wire(r); return *at(&c) },
		set: wireCell(func(s string) (func(*schematic.Wire), error) {
			return func(w *schematic.Wire) { *at(w) = s }, nil
		})}
}

// wireEnd is the column for where an end is.
func wireEnd(id, title string, which edit.WireEnd) Column {
	end := func(t *Table, r Row) schematic.End {
		if which == edit.EndB {
			return t.wire(r).B
		}
		return t.wire(r).A
	}
	return Column{ID: id, Title: title, Letters: 11, Editable: true,
		Help: "Part and pin, such as K1.30; another one leads the wire there, \"loose\" lets it hang",
		text: func(t *Table, r Row) string { return t.endText(end(t, r)) },
		set: func(t *Table, r Row, s string) (change, error) {
			w := t.wire(r)
			if strings.EqualFold(s, looseEnd) {
				at, _, _ := t.Doc.EndAt(w, end(t, r))
				return func(tx *edit.Tx) error { return edit.ReconnectEnd(tx, w.ID, which, edit.Anchor{At: at}) }, nil
			}
			ref, err := PinNamed(t.Doc, s)
			if err != nil {
				return nil, err
			}
			return func(tx *edit.Tx) error {
				return edit.ReconnectEnd(tx, w.ID, which, edit.Anchor{Part: ref.Part, Pin: ref.Pin})
			}, nil
		}}
}

func loomKey(id schematic.ID) schematic.Key { return schematic.Key{Type: schematic.TypeLoom, ID: id} }

func sizeText(s unit.Size) string {
	if !s.Known() {
		return ""
	}
	return s.String()
}

func buildText(b schematic.Build) string {
	if b == "" {
		b = schematic.Planned
	}
	return string(b)
}

// byRoute follows a length that nobody measured.
const byRoute = " by route"

func lengthText(t *Table, r Row) string {
	n, derived := netlist.LengthOf(t.Doc, t.wire(r))
	if !derived {
		return t.length(n)
	}
	mm, ok := n.Get()
	if !ok {
		return ""
	}
	return unit.Format(unit.Length, mm, t.Units) + byRoute
}

func routeText(t *Table, r Row) string {
	w := t.wire(r)
	l := t.Doc.Loom(w.Loom)
	if l == nil {
		return ""
	}
	return RouteText(l, w)
}

// RouteText names the segments of its loom that a wire runs through.
func RouteText(l *schematic.Loom, w *schematic.Wire) string {
	var names []string
	for _, id := range w.Route {
		if s, ok := l.Segment(id); ok {
			names = append(names, SegmentName(l, s))
		}
	}
	return strings.Join(names, ", ")
}

// SegmentName returns what people call a segment: its own name, or the nodes it
// lies between.
func SegmentName(l *schematic.Loom, s schematic.Segment) string {
	if s.Name != "" {
		return s.Name
	}
	return cmp.Or(l.NodeName(s.From), "?") + "–" + cmp.Or(l.NodeName(s.To), "?")
}

func wireAmp(t *Table, r Row) (float64, bool) {
	if t.Solution == nil {
		return 0, false
	}
	amp, ok := t.Solution.WireAmp(r.Key.ID)
	return math.Abs(amp), ok && !math.IsNaN(amp)
}

func currentText(t *Table, r Row) string {
	amp, ok := wireAmp(t, r)
	return t.ampText(amp, ok)
}

// ampText writes a current of the state in sight: nothing without a state.
func (t *Table) ampText(amp float64, ok bool) string {
	switch {
	case t.Solution == nil:
		return ""
	case !ok:
		return "not known"
	case amp < netlist.LeastShownAmp:
		return "0 A"
	}
	return unit.Format(unit.Amp, amp, unit.SI)
}

func wireLoss(t *Table, r Row) (float64, bool) {
	if t.Solution == nil {
		return 0, false
	}
	i := t.Solution.Netlist.WireBranch(r.Key.ID)
	if i < 0 || !t.Solution.Netlist.Branches[i].OhmKnown {
		return 0, false
	}
	v, ok := t.Solution.Across(i)
	return math.Abs(v), ok
}

func lossText(t *Table, r Row) string {
	if t.Solution == nil {
		return ""
	}
	v, ok := wireLoss(t, r)
	if !ok {
		return "not known"
	}
	if amp, known := wireAmp(t, r); known && amp < netlist.LeastShownAmp {
		return "0 V"
	}
	return unit.Format(unit.Volt, v, unit.SI)
}
