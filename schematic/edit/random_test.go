package edit

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// chance makes edits at random, the same for the same seed.
type chance struct {
	*rand.Rand
	d *schematic.Doc
}

func pick[T any](c *chance, of []T) (t T) {
	if len(of) > 0 {
		t = of[c.IntN(len(of))]
	}
	return t
}

func (c *chance) point() geom.Point {
	p := geom.Pt(c.IntN(160)*geom.Grid, c.IntN(110)*geom.Grid)
	if c.IntN(20) == 0 {
		p = p.Add(geom.Pt(c.IntN(50), c.IntN(50))) // off the grid
	}
	return p
}

func (c *chance) step() geom.Point {
	return geom.Pt((c.IntN(21)-10)*geom.Grid, (c.IntN(21)-10)*geom.Grid)
}

func (c *chance) sheet() schematic.ID { return pick(c, c.d.Sheets()).ID }

func (c *chance) keys(t schematic.ItemType) (keys []schematic.Key) {
	for it := range c.d.All() {
		if it.Key().Type == t {
			keys = append(keys, it.Key())
		}
	}
	return keys
}

func (c *chance) id(t schematic.ItemType) schematic.ID { return pick(c, c.keys(t)).ID }

// some returns a selection of things that lie on sheets.
func (c *chance) some() (keys []schematic.Key) {
	odds := 1 + c.IntN(8)
	for _, t := range []schematic.ItemType{schematic.TypePart, schematic.TypeWire, schematic.TypeNote} {
		for _, k := range c.keys(t) {
			if c.IntN(odds) == 0 {
				keys = append(keys, k)
			}
		}
	}
	return keys
}

func (c *chance) anchor() Anchor {
	switch c.IntN(6) {
	case 0:
		return Anchor{At: c.point()}
	case 1:
		return Anchor{Wire: c.id(schematic.TypeWire), At: c.point()}
	}
	p := c.d.Part(c.id(schematic.TypePart))
	if p == nil {
		return Anchor{At: c.point()}
	}
	return Anchor{Part: p.ID, Pin: pick(c, c.d.PinsOf(p)).Name, View: pick(c, p.Views).Key}
}

// shapeOnly marks edits that must leave every wire at its pins.
const shapeOnly = true

type randomEdit struct {
	name  string
	shape bool
	do    func(c *chance, tx *Tx) error
}

func randomEdits() []randomEdit {
	place := func(c *chance, tx *Tx) error {
		return PlacePart(tx, pick(c, c.d.Library().Names()), c.sheet(), c.point(), geom.Orient{Turns: c.IntN(4), Mirror: c.IntN(2) == 0})
	}
	draw := func(c *chance, tx *Tx) error {
		var via []geom.Point
		for range max(0, c.IntN(6)-2) {
			via = append(via, c.point())
		}
		return AddWire(tx, c.sheet(), c.anchor(), c.anchor(), via, c.d.Wire(c.id(schematic.TypeWire)))
	}
	return []randomEdit{
		{"place", false, place}, {"place", false, place}, {"place", false, place},
		{"wire", false, draw}, {"wire", false, draw}, {"wire", false, draw}, {"wire", false, draw}, {"wire", false, draw},
		{"move", shapeOnly, func(c *chance, tx *Tx) error { return Move(tx, c.sheet(), c.some(), c.step()) }},
		{"rotate", shapeOnly, func(c *chance, tx *Tx) error { return Rotate(tx, c.sheet(), c.some(), c.IntN(4)) }},
		{"mirror", shapeOnly, func(c *chance, tx *Tx) error { return Mirror(tx, c.sheet(), c.some()) }},
		{"mirror upright", shapeOnly, func(c *chance, tx *Tx) error { return MirrorUpright(tx, c.sheet(), c.some()) }},
		{"align", shapeOnly, func(c *chance, tx *Tx) error { return Align(tx, c.sheet(), c.some(), Line(c.IntN(6))) }},
		{"distribute", shapeOnly, func(c *chance, tx *Tx) error {
			return Distribute(tx, c.sheet(), c.some(), c.IntN(2) == 0)
		}},
		{"lock", shapeOnly, func(c *chance, tx *Tx) error {
			keys := c.some()
			return SetLocked(tx, keys[:min(3, len(keys))], c.IntN(3) == 0)
		}},
		{"segment", shapeOnly, func(c *chance, tx *Tx) error {
			return MoveSegment(tx, c.id(schematic.TypeWire), c.IntN(5), c.step())
		}},
		{"drag bend", shapeOnly, func(c *chance, tx *Tx) error {
			return MoveBend(tx, c.id(schematic.TypeWire), c.IntN(4), c.step())
		}},
		{"add bend", shapeOnly, func(c *chance, tx *Tx) error { return AddBend(tx, c.id(schematic.TypeWire), c.point()) }},
		{"remove bend", shapeOnly, func(c *chance, tx *Tx) error {
			return RemoveBend(tx, c.id(schematic.TypeWire), c.IntN(4))
		}},
		{"straighten", shapeOnly, func(c *chance, tx *Tx) error { return Straighten(tx, c.id(schematic.TypeWire)) }},
		{"renumber", shapeOnly, func(c *chance, tx *Tx) error {
			return Renumber(tx, c.some(), Numbering{Prefix: pick(c, []string{"F", "K", "W", "X"}), Start: c.IntN(9), Columns: c.IntN(2) == 0})
		}},
		{"replace", shapeOnly, func(c *chance, tx *Tx) error {
			found := FindText(c.d, c.some(), Search{Find: pick(c, []string{"1", "F", "e", "W"}), With: pick(c, []string{"7", "Q", "", "e1"}), Fields: Fields()})
			return ReplaceText(tx, found)
		}},
		{"set part", shapeOnly, func(c *chance, tx *Tx) error {
			return SetPart(tx, c.id(schematic.TypePart), func(p *schematic.Part) {
				p.Label = "changed"
				if len(p.Pins) > 0 {
					p.Pins = append(p.Pins, schematic.Pin{Name: fmt.Sprint("n", c.IntN(99)), Role: p.Pins[0].Role, Side: pick(c, []schematic.Dir{"left", "right"})})
				}
			})
		}},
		{"rename pin", false, func(c *chance, tx *Tx) error {
			p := c.d.Part(c.id(schematic.TypePart))
			if p == nil {
				return nil
			}
			return RenamePin(tx, p.ID, pick(c, p.Pins).Name, fmt.Sprint("r", c.IntN(99)))
		}},
		{"reconnect", false, func(c *chance, tx *Tx) error {
			return ReconnectEnd(tx, c.id(schematic.TypeWire), WireEnd(c.IntN(2)), c.anchor())
		}},
		{"split", false, func(c *chance, tx *Tx) error { return SplitWire(tx, c.id(schematic.TypeWire), c.point()) }},
		{"place on wire", false, func(c *chance, tx *Tx) error {
			kind := pick(c, []string{"fuse", "diode", "plug", SpliceKind})
			return PlaceOnWire(tx, kind, c.id(schematic.TypeWire), c.point(), geom.Orient{Turns: c.IntN(4), Mirror: c.IntN(2) == 0})
		}},
		{"put into wire", false, func(c *chance, tx *Tx) error {
			p := c.d.Part(c.id(schematic.TypePart))
			if p == nil {
				return nil
			}
			keys := keysOf(p)
			if mate := c.d.Part(p.Mate); mate != nil {
				keys = keysOf(p, mate)
			}
			return PutIntoWire(tx, c.sheet(), keys, c.step(), c.id(schematic.TypeWire))
		}},
		{"lift", false, func(c *chance, tx *Tx) error { return LiftFromWire(tx, c.sheet(), c.id(schematic.TypePart)) }},
		{"join", false, func(c *chance, tx *Tx) error { return JoinWires(tx, c.id(schematic.TypePart)) }},
		{"duplicate", false, func(c *chance, tx *Tx) error {
			keys := c.some()
			return Duplicate(tx, c.sheet(), keys[:min(8, len(keys))], c.step())
		}},
		{"insert", false, func(c *chance, tx *Tx) error {
			keys := c.some()
			piece := Extract(c.d, keys[:min(6, len(keys))])
			if ps := schematic.Check(piece); len(ps) > 0 {
				return broken{fmt.Errorf("extract: %v", ps[0])}
			}
			in := HarnessPlace{Sheet: c.sheet(), Offset: c.step(), States: c.IntN(2) == 0}
			if c.IntN(4) == 0 && len(c.d.Sheets()) < 5 {
				in = HarnessPlace{}
			}
			_, err := InsertHarness(tx, piece, in)
			return err
		}},
		{"show", false, func(c *chance, tx *Tx) error {
			p := c.d.Part(c.id(schematic.TypePart))
			if p == nil {
				return nil
			}
			return ShowPart(tx, p.ID, c.sheet(), pick(c, p.Views).Section, c.point(), geom.Orient{})
		}},
		{"mate", false, func(c *chance, tx *Tx) error { return Mate(tx, c.id(schematic.TypePart), c.id(schematic.TypePart)) }},
		{"unmate", false, func(c *chance, tx *Tx) error { return Unmate(tx, c.id(schematic.TypePart)) }},
		{"bind", false, func(c *chance, tx *Tx) error {
			return Bind(tx, pick(c, []schematic.GroupType{schematic.TwistGroup, schematic.ScreenGroup}),
				[]schematic.ID{c.id(schematic.TypeWire), c.id(schematic.TypeWire)})
		}},
		{"drain", false, func(c *chance, tx *Tx) error {
			return SetDrain(tx, c.id(schematic.TypeGroup), c.id(schematic.TypeWire))
		}},
		{"note", false, func(c *chance, tx *Tx) error { return AddNote(tx, c.sheet(), c.point(), 200, 100, "note") }},
		{"add state", false, func(c *chance, tx *Tx) error { return AddState(tx, fmt.Sprint("state ", c.IntN(99)), "") }},
		{"switch", false, func(c *chance, tx *Tx) error {
			return Switch(tx, c.id(schematic.TypeState), c.id(schematic.TypePart), "", "on")
		}},
		{"add sheet", false, func(c *chance, tx *Tx) error {
			if len(c.d.Sheets()) > 3 {
				return nil
			}
			return AddSheet(tx, "")
		}},
		{"move sheet", false, func(c *chance, tx *Tx) error { return MoveSheet(tx, c.sheet(), c.IntN(5)) }},
		{"delete", false, func(c *chance, tx *Tx) error {
			keys := c.some()
			return Delete(tx, keys[:min(3, len(keys))])
		}},
		{"take off", false, func(c *chance, tx *Tx) error {
			keys := c.some()
			return TakeOff(tx, keys[:min(3, len(keys))], c.sheet())
		}},
		{"delete group", false, func(c *chance, tx *Tx) error {
			return Delete(tx, []schematic.Key{pick(c, c.keys(schematic.TypeGroup))})
		}},
		{"delete sheet", false, func(c *chance, tx *Tx) error {
			if c.IntN(4) > 0 {
				return nil
			}
			return DeleteSheet(tx, c.sheet())
		}},
	}
}

// TestRandomEdits makes long random sessions: the document stays whole after
// every step, edits of shape keep every wire at its pins, undoing all leads to
// the start and redoing all to the end.
func TestRandomEdits(t *testing.T) {
	for seed := range uint64(40) {
		t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) {
			b := newBench(t)
			c := &chance{Rand: rand.New(rand.NewPCG(seed, 1))}
			edits, done := randomEdits(), 0
			for range 150 {
				e := pick(c, edits)
				c.d = b.Doc()
				before := b.Doc()
				err := b.Do(e.name, func(tx *Tx) error { return e.do(c, tx) })
				if err != nil {
					if b.Doc() != before {
						t.Fatalf("%s failed and changed the document", e.name)
					}
					if errors.As(err, new(broken)) {
						t.Fatal(err)
					}
					continue
				}
				done++
				if e.shape {
					sameEnds(t, e.name, before, b.Doc())
				}
			}
			if done < 60 {
				t.Errorf("only %d of 150 edits were possible: the test says little", done)
			}
			end := b.Doc()
			for b.UndoLabel() != "" {
				if err := b.Undo(); err != nil {
					t.Fatal(err)
				}
			}
			if d := Diff(b.start, b.Doc()); len(d) > 0 {
				t.Errorf("undoing all leaves %v", d.Keys())
			}
			for b.RedoLabel() != "" {
				if err := b.Redo(); err != nil {
					t.Fatal(err)
				}
			}
			if b.Doc() != end {
				t.Error("redoing all does not lead to the end")
			}
		})
	}
}

func sameEnds(t *testing.T, name string, before, after *schematic.Doc) {
	t.Helper()
	if n, m := before.Len(schematic.TypeWire), after.Len(schematic.TypeWire); n != m {
		t.Fatalf("%s: %d wires became %d", name, n, m)
	}
	for w := range before.Wires() {
		is := after.Wire(w.ID)
		if is.A.Ref() != w.A.Ref() || is.B.Ref() != w.B.Ref() {
			t.Fatalf("%s: %s lost an end", name, w.Name)
		}
	}
}
