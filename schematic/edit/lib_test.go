package edit

import (
	"encoding/binary"
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// testLibrary has one kind of every shape the edits must cope with.
func testLibrary() *schematic.Library {
	pin := func(name string, x, y int, dir schematic.Dir) schematic.Pin {
		return schematic.Pin{Name: name, At: geom.Pt(x, y), Dir: dir}
	}
	box := []schematic.Section{{Form: "box"}}
	body := []schematic.Section{{Shapes: []schematic.Shape{{Type: "rect", Points: []geom.Point{{X: -25, Y: -25}, {X: 25, Y: 25}}}}}}
	in := func(p schematic.Pin, section string) schematic.Pin { p.Section = section; return p }
	return schematic.NewLibrary(
		&schematic.Kind{Name: "fuse", Prefix: "F", Sections: body, Passes: true,
			Params: []schematic.Param{{Name: "rating_amp", Unit: "A"}},
			Pins:   []schematic.Pin{pin("1", 0, -50, "up"), pin("2", 0, 50, "down")}},
		&schematic.Kind{Name: "lamp", Prefix: "E", Sections: body,
			Pins: []schematic.Pin{pin("1", 0, -50, "up"), pin("2", 0, 50, "down")}},
		&schematic.Kind{Name: "diode", Prefix: "V", Sections: body,
			Pins: []schematic.Pin{pin("A", -50, 0, "left"), pin("K", 50, 0, "right")}},
		&schematic.Kind{Name: "switch", Prefix: "S", Sections: body, Positions: []string{"off", "on"},
			Elements: []schematic.Element{{Name: "contact", Type: schematic.ElemContact, A: "1", B: "2", In: []string{"on"}}},
			Pins:     []schematic.Pin{pin("1", 0, -50, "up"), pin("2", 0, 50, "down")}},
		&schematic.Kind{Name: "relay", Prefix: "K",
			Sections: []schematic.Section{
				{Name: "coil", Shapes: body[0].Shapes},
				{Name: "contact", Shapes: body[0].Shapes}},
			Pins: []schematic.Pin{in(pin("86", 0, -50, "up"), "coil"), in(pin("85", 0, 50, "down"), "coil"),
				in(pin("30", 0, -50, "up"), "contact"), in(pin("87", 0, 50, "down"), "contact")}},
		&schematic.Kind{Name: SpliceKind, Prefix: "SP", Sections: []schematic.Section{{}}, Passes: true,
			Pins: []schematic.Pin{pin("1", 0, 0, "")}},
		&schematic.Kind{Name: "stud", Prefix: "GND", Sections: body, Passes: true, Ground: "body",
			Pins: []schematic.Pin{pin("1", 0, -25, "up")}},
		&schematic.Kind{Name: "unit", Prefix: "A", Sections: box, OwnPins: true,
			Roles: []schematic.Role{{Name: "input"}, {Name: "output", Params: []schematic.Param{{Name: "limit_amp", Unit: "A"}}}},
			Pins:  []schematic.Pin{{Name: "1", Role: "input", Side: "left"}, {Name: "2", Role: "output", Side: "right"}}},
		&schematic.Kind{Name: "plug", Prefix: "X", Sections: []schematic.Section{{Form: "rows"}}, OwnPins: true, Passes: true, OtherHalf: "socket",
			Roles: []schematic.Role{{Name: "cavity"}},
			Pins:  []schematic.Pin{{Name: "1", Role: "cavity", Side: "left"}, {Name: "2", Role: "cavity", Side: "left"}}},
		&schematic.Kind{Name: "socket", Prefix: "X", Sections: []schematic.Section{{Form: "rows"}}, OwnPins: true, Passes: true, OtherHalf: "plug",
			Roles: []schematic.Role{{Name: "cavity"}},
			Pins:  []schematic.Pin{{Name: "1", Role: "cavity", Side: "right"}, {Name: "2", Role: "cavity", Side: "right"}}},
		&schematic.Kind{Name: "header", Prefix: "X", Sections: []schematic.Section{{Form: "rows"}}, OwnPins: true, Passes: true,
			Roles: []schematic.Role{{Name: "cavity"}},
			Pins:  []schematic.Pin{{Name: "1", Role: "cavity", Side: "right"}}},
	)
}

// countIDs returns a source of IDs that repeats from run to run.
func countIDs() func() schematic.ID {
	n := uint32(0)
	return func() (id schematic.ID) {
		n++
		binary.BigEndian.PutUint32(id[12:], n)
		return id
	}
}

// bench is a session on one empty sheet that checks every law of a change on
// every step.
type bench struct {
	*Session
	t     testing.TB
	sheet schematic.ID
	start *schematic.Doc
	mark  map[schematic.Item]string // what items read when they came in
}

func newBench(t testing.TB) *bench {
	t.Helper()
	ids := countIDs()
	tx := Begin(schematic.New(testLibrary()), ids)
	if err := AddSheet(tx, "Engine"); err != nil {
		t.Fatal(err)
	}
	d := tx.Doc()
	b := &bench{Session: NewSession(d, nil, ids), t: t, sheet: d.Sheets()[0].ID, start: d, mark: map[schematic.Item]string{}}
	b.Verify = verify
	b.Watch(b.laws)
	b.note(d)
	t.Cleanup(b.unwritten)
	return b
}

// broken is what verify finds; no edit may ever need it.
type broken struct{ error }

// verify is schematic.Check, and what every drawn wire must be.
func verify(d *schematic.Doc) error {
	if err := whole(d); err != nil {
		return broken{err}
	}
	return nil
}

func whole(d *schematic.Doc) error {
	if ps := schematic.Check(d); len(ps) > 0 {
		return fmt.Errorf("%s %v (%d problems)", schematic.Describe(d.Get(ps[0].At)), ps[0], len(ps))
	}
	for w := range d.Wires() {
		p := d.Path(w)
		if !p.Orthogonal() || len(p) < 2 {
			return fmt.Errorf("%s is drawn askew: %v", w.Name, p)
		}
		a, _, _ := d.EndAt(w, w.A)
		b, _, _ := d.EndAt(w, w.B)
		if p[0] != a || p[len(p)-1] != b {
			return fmt.Errorf("%s is drawn %v but ends at %v and %v", w.Name, p, a, b)
		}
	}
	return nil
}

func (b *bench) laws(old, new *schematic.Doc, c Change) {
	b.t.Helper()
	same := func(what string, x, y *schematic.Doc) {
		if diff := Diff(x, y); len(diff) > 0 {
			b.t.Errorf("%s: differs in %v", what, diff.Keys())
		}
	}
	again, err := c.Apply(old)
	if err != nil {
		b.t.Fatalf("apply: %v", err)
	}
	same("apply", again, new)
	back, err := c.Invert().Apply(new)
	if err != nil {
		b.t.Fatalf("invert: %v", err)
	}
	same("invert", back, old)
	if diff := Diff(old, new); !reflect.DeepEqual(diff, c) {
		b.t.Errorf("diff names %v, recorded was %v", diff.Keys(), c.Keys())
	}
	if sum := c.Then(c.Invert()); len(sum) > 0 {
		b.t.Errorf("a change and its inverse leave %v", sum.Keys())
	}
	b.note(new)
}

func (b *bench) note(d *schematic.Doc) {
	for it := range d.All() {
		if _, seen := b.mark[it]; !seen {
			b.mark[it] = asText(it)
		}
	}
}

// unwritten fails when an item was written to after it came into a document.
func (b *bench) unwritten() {
	for it, was := range b.mark {
		if is := asText(it); is != was {
			b.t.Errorf("%s was written to:\nwas %s\nis  %s", schematic.Describe(it), was, is)
		}
	}
}

func asText(it schematic.Item) string {
	text, err := json.Marshal(it)
	if err != nil {
		return err.Error()
	}
	return string(text)
}

// must runs an edit that shall succeed.
func (b *bench) must(fn func(*Tx) error) {
	b.t.Helper()
	if err := b.Do("edit", fn); err != nil {
		b.t.Fatal(err)
	}
}

// refused runs an edit that shall fail with these words and change nothing.
func (b *bench) refused(words string, fn func(*Tx) error) {
	b.t.Helper()
	before := b.Doc()
	err := b.Do("edit", fn)
	switch {
	case err == nil:
		b.t.Errorf("not refused, want %q", words)
	case !strings.Contains(err.Error(), words):
		b.t.Errorf("refused with %q, want %q", err, words)
	}
	if b.Doc() != before {
		b.t.Errorf("a refused edit changed the document")
	}
}

// place adds a part and returns it.
func (b *bench) place(kind string, x, y int) *schematic.Part {
	b.t.Helper()
	b.must(func(tx *Tx) error { return PlacePart(tx, kind, b.sheet, geom.Pt(x, y), geom.Orient{}) })
	return b.Doc().Part(b.Selection()[0].ID)
}

// wire draws a wire and returns it.
func (b *bench) wire(a, e Anchor, via ...geom.Point) *schematic.Wire {
	b.t.Helper()
	b.must(func(tx *Tx) error { return AddWire(tx, b.sheet, a, e, via, nil) })
	return b.Doc().Wire(b.Selection()[0].ID)
}

func at(p *schematic.Part, pin string) Anchor { return Anchor{Part: p.ID, Pin: pin} }
func loose(x, y int) Anchor                   { return Anchor{At: geom.Pt(x, y)} }
func on(w *schematic.Wire, x, y int) Anchor   { return Anchor{Wire: w.ID, At: geom.Pt(x, y)} }

func keysOf(items ...schematic.Item) []schematic.Key {
	keys := make([]schematic.Key, len(items))
	for i, it := range items {
		keys[i] = it.Key()
	}
	return keys
}

// drawn returns the path of a wire as text: "0,0 50,0".
func (b *bench) drawn(w *schematic.Wire) string {
	return pathText(b.Doc().Path(b.Doc().Wire(w.ID)))
}

func pathText(p []geom.Point) string {
	parts := make([]string, len(p))
	for i, q := range p {
		parts[i] = fmt.Sprintf("%d,%d", q.X, q.Y)
	}
	return strings.Join(parts, " ")
}

// names lists all parts and wires: "F1 W1".
func (b *bench) names() string {
	var all []string
	for _, t := range []schematic.ItemType{schematic.TypePart, schematic.TypeWire} {
		var some []string
		for it := range b.Doc().All() {
			if it.Key().Type == t {
				some = append(some, schematic.NameOf(it))
			}
		}
		sortNames(some)
		all = append(all, some...)
	}
	return strings.Join(all, " ")
}

func sortNames(s []string) {
	for i := range s {
		for j := i; j > 0 && schematic.CompareNames(s[j], s[j-1]) < 0; j-- {
			s[j], s[j-1] = s[j-1], s[j]
		}
	}
}

func equalText(t testing.TB, what, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("%s:\ngot  %s\nwant %s", what, got, want)
	}
}
