package draft

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
)

// Column is one column of a list.
type Column struct {
	Title, Help string
	Letters     int
}

// List is one of the lists of a kind: its lines can be read, changed, added,
// removed and moved. Lines and columns count from 0.
type List struct {
	Columns []Column
	Len     func() int
	Text    func(line, col int) string
	set     func(line, col int, text string) error
	add     func()
	remove  func(line int)
	swap    func(a, b int)
}

// Set reads a text into a cell.
func (l *List) Set(line, col int, text string) error {
	if line < 0 || line >= l.Len() || col < 0 || col >= len(l.Columns) {
		return fmt.Errorf("there is no such cell")
	}
	return l.set(line, col, strings.TrimSpace(text))
}

// Add appends a line.
func (l *List) Add() { l.add() }

// Remove takes a line out.
func (l *List) Remove(line int) {
	if line >= 0 && line < l.Len() {
		l.remove(line)
	}
}

// Move swaps a line with the one by steps further down.
func (l *List) Move(line, by int) bool {
	to := line + by
	if line < 0 || line >= l.Len() || to < 0 || to >= l.Len() {
		return false
	}
	l.swap(line, to)
	return true
}

// listOf makes a list of a slice.
func listOf[T any](s *[]T, fresh func() T, columns []Column, cell func(*T, int) string, set func(*T, int, string) error) *List {
	return &List{
		Columns: columns,
		Len:     func() int { return len(*s) },
		Text:    func(line, col int) string { return cell(&(*s)[line], col) },
		set:     func(line, col int, text string) error { return set(&(*s)[line], col, text) },
		add:     func() { *s = append(*s, fresh()) },
		remove:  func(line int) { *s = slices.Delete(*s, line, line+1) },
		swap:    func(a, b int) { (*s)[a], (*s)[b] = (*s)[b], (*s)[a] },
	}
}

// bringForward puts the last column second: the lines of kinds with own pins say
// little before it is known of which role they are.
func (l *List) bringForward() *List {
	n := len(l.Columns)
	was := func(col int) int {
		switch {
		case col == 0:
			return 0
		case col == 1:
			return n - 1
		}
		return col - 1
	}
	cols := make([]Column, n)
	for i := range cols {
		cols[i] = l.Columns[was(i)]
	}
	text, set := l.Text, l.set
	l.Columns = cols
	l.Text = func(line, col int) string { return text(line, was(col)) }
	l.set = func(line, col int, s string) error { return set(line, was(col), s) }
	return l
}

// Pins is the list of pins.
func (d *Draft) Pins() *List {
	cols := []Column{
		{"Pin", "Name or number; DIN 72552 numbers where they apply, such as 30 or 87a", 8},
		{"What it is for", "In words", 20},
		{"Wire leaves", "The way a wire leaves: left, right, up or down", 11},
		{"At", "Where it stands in the symbol, in mm to the right and down, on the grid of 2.5; the box does this by itself", 12},
		{"Role", "What rules take it for: ground, power, input, sensor-ground and the like, or one of the roles of the kind; may stay empty", 14},
		{"Piece", "The piece of the symbol that shows it, where there are several", 10},
	}
	l := listOf(&d.k.Pins, d.newPin, cols, func(p *schematic.Pin, col int) string {
		switch col {
		case 0:
			return p.Name
		case 1:
			return p.Title
		case 2:
			if d.laidOut(p) {
				return string(p.Side)
			}
			return string(p.Dir)
		case 3:
			if d.laidOut(p) {
				return ""
			}
			return pointText(p.At)
		case 4:
			return p.Role
		}
		return p.Section
	}, d.setPin)
	remove := l.remove
	l.remove = func(line int) {
		delete(d.was, d.k.Pins[line].Name)
		remove(line)
	}
	return l
}

// laidOut reports whether the symbol places the pin by itself.
func (d *Draft) laidOut(p *schematic.Pin) bool {
	sec, ok := d.k.Section(p.Section)
	return ok && sec.Form != ""
}

func (d *Draft) newPin() schematic.Pin {
	p := schematic.Pin{Name: d.freePin()}
	if n := len(d.k.Pins); n > 0 {
		last := d.k.Pins[n-1]
		p.Side, p.Dir, p.Section, p.Role = last.Side, last.Dir, last.Section, last.Role
		if !d.laidOut(&last) {
			p.At = last.At
			p.At.Y += schematic.PinPitch
		}
		return p
	}
	p.Side = "left"
	return p
}

func (d *Draft) freePin() string {
	for n := 1; ; n++ {
		name := fmt.Sprint(n)
		if !slices.ContainsFunc(d.k.Pins, func(p schematic.Pin) bool { return p.Name == name }) {
			return name
		}
	}
}

func (d *Draft) setPin(p *schematic.Pin, col int, s string) error {
	switch col {
	case 0:
		return d.renamePin(p, s)
	case 1:
		p.Title = s
	case 2:
		dir, err := oneOf("a side", strings.ToLower(s), catalog.Sides())
		if err != nil {
			return err
		}
		if d.laidOut(p) {
			p.Side = schematic.Dir(dir)
		} else {
			p.Dir = schematic.Dir(dir)
		}
	case 3:
		if d.laidOut(p) {
			return fmt.Errorf("the box places its pins by itself: choose the side")
		}
		pts, err := readPoints(s, 1, 1)
		if err != nil {
			return err
		}
		p.At = pts[0]
	case 4:
		role, err := d.roleNamed(s)
		if err != nil {
			return err
		}
		p.Role = role
	case 5:
		if _, ok := d.k.Section(s); !ok {
			return fmt.Errorf("the symbol has no piece %q", s)
		}
		p.Section = s
	}
	return nil
}

// renamePin gives a pin another name; elements at it follow.
func (d *Draft) renamePin(p *schematic.Pin, to string) error {
	switch {
	case to == p.Name:
		return nil
	case to == "":
		return fmt.Errorf("a pin needs a name")
	case slices.ContainsFunc(d.k.Pins, func(q schematic.Pin) bool { return q.Name == to }):
		return fmt.Errorf("there is a pin %s already", to)
	}
	if was, ok := d.was[p.Name]; ok {
		delete(d.was, p.Name)
		d.was[to] = was
	}
	for i := range d.elements {
		e := &d.elements[i].it
		if d.elements[i].role != "" {
			continue // there "@" stands for the pin
		}
		for _, end := range []*string{&e.A, &e.B, &e.Feed} {
			if *end == p.Name {
				*end = to
			}
		}
	}
	p.Name = to
	return nil
}

// oneOf returns the one of the words that a text begins, or is.
func oneOf(what, s string, words []string) (string, error) {
	for _, w := range words {
		if w == s {
			return w, nil
		}
	}
	for _, w := range words {
		if s != "" && strings.HasPrefix(w, s) {
			return w, nil
		}
	}
	return "", fmt.Errorf("%q is not %s: write one of %s", s, what, strings.Join(words, ", "))
}
