package draw_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// testLib is a small library of its own, so that goldens do not change with
// the kinds the program ships.
func testLib() *schematic.Library {
	return schematic.NewLibrary(
		&schematic.Kind{
			Name: "fuse", Title: "Fuse", Prefix: "F", Passes: true,
			Params:   []schematic.Param{{Name: "amp", Unit: "A"}},
			Pins:     []schematic.Pin{{Name: "1", At: geom.Pt(0, -75), Dir: "up"}, {Name: "2", At: geom.Pt(0, 75), Dir: "down"}},
			Elements: []schematic.Element{{Name: "f", Type: schematic.ElemFuse, A: "1", B: "2", Args: map[string]schematic.Arg{"amp": {Param: "amp"}}}},
			Sections: []schematic.Section{{
				Shapes: []schematic.Shape{
					{Type: "line", Points: []geom.Point{{X: 0, Y: -75}, {X: 0, Y: 75}}},
					{Type: "rect", Points: []geom.Point{{X: -12, Y: -37}, {X: 12, Y: 37}}, Fill: "body"},
				},
				Tag: geom.Pt(25, 0), TagSide: "right",
			}},
		},
		&schematic.Kind{
			Name: "lamp", Title: "Lamp", Prefix: "E",
			Params:   []schematic.Param{{Name: "watt", Unit: "W"}},
			Pins:     []schematic.Pin{{Name: "58", At: geom.Pt(0, -75), Dir: "up"}, {Name: "31", At: geom.Pt(0, 75), Dir: "down"}},
			Elements: []schematic.Element{{Name: "l", Type: schematic.ElemLamp, A: "58", B: "31", Args: map[string]schematic.Arg{"watt": {Param: "watt"}}}},
			Sections: []schematic.Section{{
				Shapes: []schematic.Shape{
					{Type: "line", Points: []geom.Point{{X: 0, Y: -75}, {X: 0, Y: 75}}},
					{Type: "circle", Points: []geom.Point{{}}, Radius: 25, Fill: "body"},
					{Type: "arc", Points: []geom.Point{{}}, Radius: 15, Start: 180, Sweep: 180, Weight: "bold"},
					{Type: "text", Points: []geom.Point{{}}, Text: "L", Size: 20},
				},
				Tag: geom.Pt(38, 0), TagSide: "right",
			}},
		},
		&schematic.Kind{
			Name: "splice", Title: "Splice", Prefix: "SP", Passes: true,
			Pins:     []schematic.Pin{{Name: "1"}},
			Sections: []schematic.Section{{Shapes: []schematic.Shape{{Type: "circle", Points: []geom.Point{{}}, Radius: 8, Fill: "solid"}}}},
		},
		&schematic.Kind{
			Name: "stud", Title: "Stud", Prefix: "GND", Ground: "body",
			Pins: []schematic.Pin{{Name: "1", Dir: "up"}},
			Sections: []schematic.Section{{Shapes: []schematic.Shape{
				{Type: "line", Points: []geom.Point{{}, {Y: 25}}},
				{Type: "line", Points: []geom.Point{{X: -25, Y: 25}, {X: 25, Y: 25}}, Weight: "bold"},
			}, Tag: geom.Pt(30, 20), TagSide: "right"}},
		},
		ownKind("unit", "box"), ownKind("plug", "rows"), ownKind("bar", "bar"),
	)
}

func ownKind(name, form string) *schematic.Kind {
	return &schematic.Kind{
		Name: name, Title: "Test " + name, Prefix: "X", OwnPins: true,
		Roles: []schematic.Role{
			{Name: "plain"},
			{Name: "fused", Params: []schematic.Param{{Name: "amp", Unit: "A"}},
				Elements: []schematic.Element{{Name: "f", Type: schematic.ElemFuse, A: "@", B: "#rail", Args: map[string]schematic.Arg{"amp": {Param: "amp"}}}},
				Shapes:   []schematic.Shape{{Type: "rect", Points: []geom.Point{{X: 10, Y: -8}, {X: 40, Y: 8}}, Fill: "paper"}}},
		},
		Sections: []schematic.Section{{Form: form}},
	}
}

// bench is a document under construction.
type bench struct {
	doc   *schematic.Doc
	sheet *schematic.Sheet
	n     int
	parts map[string]*schematic.Part
}

func testID(t byte, n int) schematic.ID {
	return schematic.ID{0: t, 12: byte(n >> 24), 13: byte(n >> 16), 14: byte(n >> 8), 15: byte(n)}
}

func newBench(w, h int) *bench {
	s := &schematic.Sheet{ID: testID(1, 1), Name: "one", Width: w, Height: h}
	b := &bench{doc: schematic.New(testLib()), sheet: s, parts: map[string]*schematic.Part{}}
	b.put(s)
	return b
}

func (b *bench) put(items ...schematic.Item) {
	puts := make([]schematic.Put, len(items))
	for i, it := range items {
		puts[i] = schematic.Put{Key: it.Key(), Item: it}
	}
	b.doc = b.doc.With(puts...)
}

// part adds a part at a place in grid steps.
func (b *bench) part(kind, name string, x, y int, change ...func(*schematic.Part)) *schematic.Part {
	b.n++
	p := &schematic.Part{ID: testID(2, b.n), Name: name, Kind: kind,
		Views: []schematic.View{{Sheet: b.sheet.ID, At: geom.Pt(x*geom.Grid, y*geom.Grid)}}}
	for _, f := range change {
		f(p)
	}
	b.parts[name] = p
	b.put(p)
	return p
}

// wire adds a wire between "F1.2" style ends; "x,y" is a loose end in grid steps.
func (b *bench) wire(name, a, z, color string, mm2 float64, via ...geom.Point) *schematic.Wire {
	b.n++
	c, err := schematic.ParseColor(color)
	if err != nil {
		panic(err)
	}
	w := &schematic.Wire{ID: testID(3, b.n), Name: name, Sheet: b.sheet.ID, A: b.end(a), B: b.end(z), Color: c}
	if mm2 > 0 {
		w.Size = unit.MM2(mm2)
	}
	for _, p := range via {
		w.Via = append(w.Via, geom.Pt(p.X*geom.Grid, p.Y*geom.Grid))
	}
	b.put(w)
	return w
}

func (b *bench) end(s string) schematic.End {
	var x, y int
	if n, _ := fmt.Sscanf(s, "%d,%d", &x, &y); n == 2 {
		return schematic.End{At: geom.Pt(x*geom.Grid, y*geom.Grid)}
	}
	for i := range s {
		if s[i] == '.' {
			return schematic.End{Part: b.parts[s[:i]].ID, Pin: s[i+1:]}
		}
	}
	panic("bad end " + s)
}

func pins(names ...string) func(*schematic.Part) {
	return func(p *schematic.Part) {
		for i, n := range names {
			pin := schematic.Pin{Name: n, Role: "plain"}
			if i >= (len(names)+1)/2 {
				pin.Side = "right"
			}
			p.Pins = append(p.Pins, pin)
		}
	}
}

func value(name string, v float64) func(*schematic.Part) {
	return func(p *schematic.Part) { p.Values = map[string]float64{name: v} }
}

func turned(turns int, mirror bool) func(*schematic.Part) {
	return func(p *schematic.Part) { p.Views[0].Turns, p.Views[0].Mirror = turns, mirror }
}

// small is the sheet most tests look at: a fused lamp circuit with a joint, a
// crossing, a loose end, a group of each type and notes.
func small(t *testing.T) *bench {
	t.Helper()
	b := newBench(2500, 1800)
	b.put(&schematic.Info{Title: "Lamp circuit", Vehicle: "test rig", Number: "T-1", Issue: "A"})
	b.part("fuse", "F1", 12, 14, value("amp", 15))
	b.part("fuse", "F2", 24, 14)
	b.part("lamp", "E1", 24, 32, value("watt", 55), func(p *schematic.Part) { p.Label = "work lamp" })
	b.part("lamp", "E2", 36, 32, turned(1, false))
	b.part("stud", "GND1", 24, 50)
	b.part("splice", "SP1", 24, 44)
	b.part("unit", "A1", 54, 10, pins("1", "2", "3", "4"), func(p *schematic.Part) {
		p.Label = "lamp control"
		p.Pins[0].Title, p.Pins[0].Role, p.Pins[0].Values = "feed", "fused", map[string]float64{"amp": 10}
	})
	b.part("plug", "X1", 54, 34, pins("1", "2", "3"), func(p *schematic.Part) {
		p.Housing = &schematic.Housing{Gender: "socket"}
	})
	b.part("bar", "X2", 70, 50, pins("1", "2"))
	b.part("nobody-knows", "A9", 76, 14, pins("1"))
	b.wire("W1", "F1.2", "E1.58", "RD/WH", 1.5)
	b.wire("W2", "F2.2", "E2.58", "YE", 2.5, geom.Pt(24, 22), geom.Pt(46, 22))
	b.wire("W3", "E1.31", "SP1.1", "BN", 1.5)
	b.wire("W4", "E2.31", "SP1.1", "BN", 1.5)
	b.wire("W5", "SP1.1", "GND1.1", "BN", 4)
	b.wire("W6", "F1.1", "A1.1", "RD", 1, geom.Pt(12, 8), geom.Pt(50, 8))
	b.wire("W7", "A1.2", "X1.1", "", 0)
	b.wire("W8", "X1.2", "46,52", "GNYE", 0.75)
	twist := &schematic.Group{ID: testID(4, 1), Name: "pair", Type: schematic.TwistGroup}
	screen := &schematic.Group{ID: testID(4, 2), Name: "screen 1", Type: schematic.ScreenGroup}
	b.put(twist, screen)
	for i, y := range []int{56, 58} {
		w := *b.wire(fmt.Sprintf("W%d", 20+i), fmt.Sprintf("30,%d", y), fmt.Sprintf("60,%d", y), "WH", 0.35)
		w.Twist, w.Screen = twist.ID, screen.ID
		b.put(&w)
	}
	b.put(
		&schematic.Note{ID: testID(5, 1), Sheet: b.sheet.ID, At: geom.Pt(1100, 150), Width: 1300, Height: 800, Text: "Control"},
		&schematic.Note{ID: testID(5, 2), Sheet: b.sheet.ID, At: geom.Pt(150, 1250), Text: "Two lines\nof text"},
	)
	require.Empty(t, schematic.Check(b.doc))
	return b
}

// crowd fills a sheet with n wires between fuses and lamps in rows, some with
// bends, so that wires cross; the seed makes it repeatable.
func crowd(n int, seed uint64) *bench {
	rng := rand.New(rand.NewPCG(seed, 1))
	cols := 1
	for cols*cols < n/2 {
		cols++
	}
	b := newBench((cols*16+20)*geom.Grid, (cols*20+40)*geom.Grid)
	codes := schematic.ColorCodes()
	var names []string
	for i := range (n + 1) / 2 {
		x, y := 10+i%cols*16, 14+i/cols*20
		f, e := fmt.Sprintf("F%d", i), fmt.Sprintf("E%d", i)
		b.part("fuse", f, x, y, value("amp", 10))
		b.part("lamp", e, x+6, y+10, value("watt", 21))
		names = append(names, f+".1", f+".2", e+".58", e+".31")
	}
	for i := range n {
		k := i / 2 * 4
		a, z := names[k+1], names[k+2]
		if i%2 == 1 {
			far := k + 4*(1+rng.IntN(6)) + 3
			if rng.IntN(3) == 0 {
				far = k + 4*cols + 3
			}
			a, z = names[k], names[min(far, len(names)-1)]
		}
		b.wire(fmt.Sprintf("W%d", i), a, z, codes[rng.IntN(len(codes)-1)], []float64{0.5, 0.75, 1.5, 2.5, 6}[rng.IntN(5)])
	}
	return b
}
