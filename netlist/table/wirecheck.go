package table

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// WireCheck is what a line of a list of wires comes to.
type WireCheck struct {
	Wire schematic.Wire // to be drawn, for [edit.AddWires]; without an ID
	Err  error          // why it cannot be
	At   int            // the field Err is about, counted as [WireFields] does
	Note string         // what is done besides, "" for nothing
	Bare bool           // the line says nothing
}

// CheckWires looks at every line of a list of wires: what it names must be there
// and said clearly, and the wire must be new. With showMore a part may be shown
// on a further sheet, see [edit.SheetOf].
func CheckWires(d *schematic.Doc, lines []WireLine, showMore bool) []WireCheck {
	checks := make([]WireCheck, len(lines))
	c := listChecker{doc: d, showMore: showMore, names: map[string]int{}, ends: map[[2]schematic.PinRef]said{}}
	for i := range lines {
		if lines[i].Empty() {
			checks[i].Bare = true
			continue
		}
		checks[i] = c.check(i, &lines[i])
	}
	return checks
}

// listChecker remembers what the lines before said; lines count from 1.
type listChecker struct {
	doc      *schematic.Doc
	showMore bool
	names    map[string]int
	ends     map[[2]schematic.PinRef]said // either way round
}

// said is a line and whether it gives its wire a designation.
type said struct {
	row   int
	named bool
}

func (c *listChecker) check(i int, l *WireLine) WireCheck {
	w, at, err := readLine(c.doc, l)
	k := WireCheck{Wire: w, Err: err, At: at}
	if err == nil {
		k.At, k.Err = c.fresh(i, &w)
	}
	if k.Err != nil {
		return k
	}
	sheet, more, err := edit.SheetOf(c.doc, w.A, w.B, c.showMore)
	switch s := c.doc.Sheet(w.Sheet); {
	case s != nil:
		for _, e := range []schematic.End{w.A, w.B} {
			if _, _, shown := c.doc.EndAt(&w, e); !shown {
				k.At, k.Err = lineSheet, fmt.Errorf("sheet %q does not show %s: empty the cell, or show the part there first", s.Name, endText(c.doc, e))
			}
		}
	case err != nil:
		k.At, k.Err = lineTo, err
	case more != schematic.PinRef{}:
		k.Note = fmt.Sprintf("%s is shown on sheet %q too", schematic.NameOf(c.doc.Part(more.Part)), c.doc.Sheet(sheet).Name)
	}
	return k
}

// fresh says why a wire is not a new one, and by which field.
func (c *listChecker) fresh(i int, w *schematic.Wire) (at int, err error) {
	own := w.Name != ""
	if own {
		if at := c.names[w.Name]; at > 0 {
			return lineWire, fmt.Errorf("row %d has %s already: give each wire its own designation", at, w.Name)
		}
		c.names[w.Name] = i + 1
	}
	ends := [2]schematic.PinRef{w.A.Ref(), w.B.Ref()}
	there := joined(c.doc, ends)
	switch key, used := c.doc.Named(w.Name); {
	case there != nil && there.Name == w.Name:
		return lineWire, fmt.Errorf("%s is there already, with these ends: to change it, work in its row of the table of wires", w.Name)
	case there != nil:
		return lineTo, fmt.Errorf("%s joins these pins already: take this row out, or draw a second wire by hand", there.Name)
	case own && used:
		return lineWire, fmt.Errorf("%s is taken by %s: write another designation, or none for the next free one", w.Name, described(c.doc, key))
	}
	if w.A.Loose() || w.B.Loose() {
		return 0, nil
	}
	if other := c.ends[ends]; other.row > 0 && !(own && other.named) {
		return lineTo, fmt.Errorf("row %d joins the same pins: take one out, or give both a designation if there are two wires", other.row)
	}
	c.ends[ends] = said{i + 1, own}
	c.ends[[2]schematic.PinRef{ends[1], ends[0]}] = said{i + 1, own}
	return 0, nil
}

// joined returns a wire that joins two pins, nil where none does.
func joined(d *schematic.Doc, ends [2]schematic.PinRef) *schematic.Wire {
	if (ends[0].Part == schematic.ID{}) || (ends[1].Part == schematic.ID{}) {
		return nil
	}
	for _, w := range d.WiresAt(ends[0]) {
		if a, b := w.A.Ref(), w.B.Ref(); a == ends[0] && b == ends[1] || a == ends[1] && b == ends[0] {
			return w
		}
	}
	return nil
}

func described(d *schematic.Doc, k schematic.Key) string {
	switch it := d.Get(k).(type) {
	case *schematic.Wire:
		return "another wire"
	case *schematic.Part:
		if it.Label != "" {
			return "the part " + strconv.Quote(it.Label)
		}
	}
	return "another " + k.Type.String()
}

// readLine reads what a line says of its wire; a mistake is in the field at.
func readLine(d *schematic.Doc, l *WireLine) (w schematic.Wire, at int, err error) {
	text := func(field int) string { return strings.TrimSpace(l[field]) }
	w = schematic.Wire{Name: text(lineWire), Insulation: text(lineInsulation), Circuit: text(lineCircuit), Notes: text(lineNotes)}
	for _, end := range []struct {
		part, pin, terminal, seal int
		what                      string
		to                        *schematic.End
	}{{lineFrom, lineFromPin, lineFromTerminal, lineFromSeal, "from", &w.A}, {lineTo, lineToPin, lineToTerminal, lineToSeal, "to", &w.B}} {
		if *end.to, err = endNamed(d, text(end.part), text(end.pin)); err != nil {
			at = end.part
			if text(end.pin) != "" && partNamed(d, text(end.part)) != nil {
				at = end.pin
			}
			return w, at, fmt.Errorf("%s: %w", end.what, err)
		}
		end.to.Terminal, end.to.Seal = text(end.terminal), text(end.seal)
	}
	switch {
	case w.A.Loose() && w.B.Loose():
		return w, lineTo, errors.New("both ends are loose: name at least one pin")
	case w.A.Ref() == w.B.Ref():
		return w, lineTo, fmt.Errorf("both ends are at %s: a wire joins two pins", endText(d, w.A))
	}
	for _, cell := range []struct {
		field int
		read  func(string) (func(*schematic.Wire), error)
	}{{lineSize, readSize}, {LineColour, readColor}, {lineLength, readListLength}, {lineBuilt, readBuild}, {lineSlack, readSlack}, {lineMetal, readMetal}, {lineClass, readClass}} {
		set, err := cell.read(text(cell.field))
		if err != nil {
			return w, cell.field, fmt.Errorf("%s: %w", strings.ToLower(WireFields()[cell.field].Title), err)
		}
		set(&w)
	}
	if w.Loom, err = loomNamed(d, text(lineLoom)); err != nil {
		return w, lineLoom, err
	}
	if route := text(lineRoute); route != "" {
		loom := d.Loom(w.Loom)
		if loom == nil {
			return w, lineRoute, errors.New("a route goes through the segments of a loom: name the loom too")
		}
		if w.Route, err = routeNamed(loom, route); err != nil {
			return w, lineRoute, err
		}
	}
	if sheet := text(lineSheet); sheet != "" {
		w.Sheet, err = sheetNamed(d, sheet)
	}
	return w, lineSheet, err
}

// readListLength is readLength for lists whose unit may have been lost: nobody
// measures a wire of a few millimetres.
func readListLength(s string) (func(*schematic.Wire), error) {
	if mm, err := unit.Parse(unit.Length, s); err == nil && s != "" && bareNumber(s) && mm > 0 && mm < 10 {
		return nil, fmt.Errorf("%s without a unit would be %s mm: write the unit, as in %s m", s, s, s)
	}
	return readLength(s)
}

func sheetNamed(d *schematic.Doc, name string) (schematic.ID, error) {
	var names []string
	for _, s := range d.Sheets() {
		if strings.EqualFold(s.Name, name) {
			return s.ID, nil
		}
		names = append(names, s.Name)
	}
	return schematic.ID{}, fmt.Errorf("there is no sheet %q: write one of %s, or nothing", name, strings.Join(names, ", "))
}

// endNamed returns the end of a wire that a part and a pin name. A pin may be
// called by what it is for, where only one is for that.
func endNamed(d *schematic.Doc, part, pin string) (schematic.End, error) {
	switch {
	case part == "" && pin == "":
		return schematic.End{}, errors.New("name a part and its pin, or write \"loose\"")
	case part == "":
		return schematic.End{}, fmt.Errorf("name the part that pin %s is on", pin)
	case strings.EqualFold(part, looseEnd) && pin == "":
		return schematic.End{}, nil
	}
	p := partNamed(d, part)
	switch {
	case p == nil && pin != "":
		return schematic.End{}, fmt.Errorf("there is no part %q: place it first, or correct the name", part)
	case p == nil:
		ref, err := PinNamed(d, part)
		if err != nil && !strings.ContainsAny(part, ".: ") {
			err = fmt.Errorf("there is no part %q: place it first, or correct the name", part)
		}
		return schematic.End{Part: ref.Part, Pin: ref.Pin}, err
	}
	name, err := pinOfPart(d, p, pin)
	return schematic.End{Part: p.ID, Pin: name}, err
}

// partNamed returns the part of a designation, in capitals or not.
func partNamed(d *schematic.Doc, name string) *schematic.Part {
	for _, n := range []string{name, strings.ToUpper(name)} {
		if k, ok := d.Named(n); ok && d.Part(k.ID) != nil {
			return d.Part(k.ID)
		}
	}
	return nil
}

// pinOfPart returns the name of the one pin of a part that a text means.
func pinOfPart(d *schematic.Doc, p *schematic.Part, text string) (string, error) {
	pins := d.PinsOf(p)
	if text == "" && len(pins) == 1 {
		return pins[0].Name, nil
	}
	bare := strings.TrimSpace(strings.TrimPrefix(strings.ToLower(text), "pin "))
	for _, same := range []func(schematic.Pin) bool{
		func(pin schematic.Pin) bool { return pin.Name == text },
		func(pin schematic.Pin) bool { return strings.EqualFold(pin.Name, bare) },
		func(pin schematic.Pin) bool { return text != "" && strings.EqualFold(pin.Title, text) },
	} {
		var found []string
		for _, pin := range pins {
			if same(pin) {
				found = append(found, pin.Name)
			}
		}
		switch len(found) {
		case 0:
		case 1:
			return found[0], nil
		default:
			return "", fmt.Errorf("%q can be several pins of %s: write one of %s", text, p.Name, strings.Join(found, ", "))
		}
	}
	var names []string
	for _, pin := range pins {
		names = append(names, pin.Name)
	}
	const most = 12
	if len(names) > most {
		names = append(names[:most], "…")
	}
	switch {
	case len(names) == 0:
		return "", fmt.Errorf("%s has no pins yet: give it some first", p.Name)
	case text == "":
		return "", fmt.Errorf("%s has several pins: say which, of %s", p.Name, strings.Join(names, ", "))
	}
	return "", fmt.Errorf("%s has no pin %q: it has %s", p.Name, text, strings.Join(names, ", "))
}

// InOrder returns the wires of the lines that can be drawn, and how many lines
// cannot be.
func InOrder(checks []WireCheck) (wires []schematic.Wire, wrong int) {
	for _, c := range checks {
		switch {
		case c.Bare:
		case c.Err != nil:
			wrong++
		default:
			wires = append(wires, c.Wire)
		}
	}
	return slices.Clip(wires), wrong
}
