package draw_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/draw"
	"loomwright/schematic/geom"
)

func texts(l *draw.List) []*draw.Text {
	var out []*draw.Text
	for _, m := range l.Marks {
		if t, ok := m.Op.(*draw.Text); ok {
			out = append(out, t)
		}
	}
	return out
}

func said(l *draw.List) []string {
	var out []string
	for _, t := range texts(l) {
		out = append(out, t.S)
	}
	return out
}

func TestUnknownSheetIsEmpty(t *testing.T) {
	b := small(t)
	l := draw.Sheet(b.doc, testID(9, 9), draw.Options{})
	assert.Empty(t, l.Marks)
	assert.Empty(t, draw.NewIndex(l).At(draw.Point{}, 5))
}

func TestEverySheetBearsTheCaution(t *testing.T) {
	for _, size := range [][2]int{{2500, 1800}, {600, 500}, {8410, 5940}} {
		b := newBench(size[0], size[1])
		all := strings.Join(said(draw.Sheet(b.doc, b.sheet.ID, draw.Options{})), " ")
		assert.Contains(t, all, draw.Caution, "%v", size)
	}
}

// What is missing must be seen: a fuse without a rating is "? A", not nothing.
func TestValues(t *testing.T) {
	s := said(draw.Sheet(small(t).doc, testID(1, 1), draw.Options{}))
	for _, want := range []string{"15 A", "? A", "55 W", "? W", "feed 10 A", "W1 1.5 RD/WH", "W8 0.75 GNYE", "unknown kind", "nobody-knows", "1 of 1"} {
		assert.Contains(t, s, want)
	}
}

func TestSameSnapshotGivesTheSameList(t *testing.T) {
	b := small(t)
	var d draw.Builder
	first := d.Sheet(b.doc, b.sheet.ID, draw.Options{})
	other := d.Sheet(b.doc, b.sheet.ID, draw.Options{NoHops: true})
	assert.Same(t, first, d.Sheet(b.doc, b.sheet.ID, draw.Options{}))
	assert.Same(t, other, d.Sheet(b.doc, b.sheet.ID, draw.Options{NoHops: true}))
	assert.NotSame(t, first, other)
}

// A builder that has drawn many versions of a document must draw each as if it
// were the first.
func TestBuilderEqualsFreshDrawing(t *testing.T) {
	const seed = 7
	b := crowd(120, seed)
	rng := rand.New(rand.NewPCG(seed, 2))
	parts, wires := slices.Collect(b.doc.Parts()), slices.Collect(b.doc.Wires())
	var d draw.Builder
	docs := []*schematic.Doc{b.doc}
	for step := range 60 {
		switch rng.IntN(5) {
		case 0, 1:
			i := rng.IntN(len(parts))
			p := *parts[i]
			p.Views = slices.Clone(p.Views)
			p.Views[0].At = p.Views[0].At.Add(geom.Pt(25*(rng.IntN(9)-4), 25*(rng.IntN(9)-4)))
			p.Views[0].Turns = rng.IntN(4)
			parts[i] = &p
			b.put(&p)
		case 2:
			i := rng.IntN(len(wires))
			w := *wires[i]
			w.Color = schematic.Color{Base: "PK", Tracer: "BK"}
			w.Via = []geom.Point{{X: 25 * rng.IntN(60), Y: 25 * rng.IntN(60)}}
			wires[i] = &w
			b.put(&w)
		case 3:
			b.doc = docs[rng.IntN(len(docs))] // undo
		case 4:
			i := rng.IntN(len(wires))
			b.doc = b.doc.With(schematic.Put{Key: wires[i].Key()})
		}
		docs = append(docs, b.doc)
		got, want := d.Sheet(b.doc, b.sheet.ID, draw.Options{}), draw.Sheet(b.doc, b.sheet.ID, draw.Options{})
		require.Equal(t, want.Text(), got.Text(), "seed %d, step %d", seed, step)
	}
}

// The drawn path must be the one the model gives, also when a pin is shown by
// several views.
func TestWiresFollowTheModel(t *testing.T) {
	b := crowd(80, 3)
	sp := b.part("splice", "SP", 3, 3, func(p *schematic.Part) {
		p.Views = append(p.Views, schematic.View{Key: "far", Sheet: b.sheet.ID, At: geom.Pt(500, 75)})
	})
	w := *b.wire("WX", "SP.1", "F0.1", "RD", 1)
	w.A.View = "far"
	b.put(&w)
	_ = sp
	l := draw.Sheet(b.doc, b.sheet.ID, draw.Options{NoHops: true})
	n := 0
	for _, m := range l.Marks {
		s, ok := m.Op.(*draw.Stroke)
		if !ok || s.Ink != draw.InkWireRim {
			continue
		}
		n++
		want := b.doc.Path(b.doc.Wire(m.Owner.ID))
		require.Len(t, s.Path, len(want))
		for i, p := range want {
			x, y := p.MM()
			assert.Equal(t, draw.Point{X: x, Y: y}, s.Path[i].P)
		}
	}
	assert.Equal(t, b.doc.Len(schematic.TypeWire), n)
}

func TestFourTurnsAreNone(t *testing.T) {
	for _, kind := range []string{"fuse", "lamp", "unit", "plug", "bar", "splice"} {
		for _, mirror := range []bool{false, true} {
			at := func(turns int) string {
				b := newBench(2000, 1500)
				b.part(kind, "P1", 30, 30, pins("1", "2", "3"), turned(turns, mirror))
				return draw.Sheet(b.doc, b.sheet.ID, draw.Options{}).Text()
			}
			assert.Equal(t, at(0), at(4), kind)
			if kind != "splice" {
				assert.NotEqual(t, at(0), at(1), kind)
			}
		}
	}
}

// Turning a symbol turns its lines with it and leaves its letters upright.
func TestTurnedLinesAreTurned(t *testing.T) {
	lines := func(kind string, turns int, mirror bool) (pts []draw.Point) {
		b := newBench(2000, 1500)
		p := b.part(kind, "P1", 40, 30, pins("1", "2", "3"), turned(turns, mirror))
		for _, m := range draw.Sheet(b.doc, b.sheet.ID, draw.Options{}).Marks {
			if m.Owner != p.Key() {
				continue
			}
			switch op := m.Op.(type) {
			case *draw.Stroke:
				for _, s := range op.Path {
					if s.Verb != draw.Close {
						pts = append(pts, s.P)
					}
				}
			case *draw.Text:
				assert.Contains(t, []float64{0, 270}, op.Angle)
			}
		}
		return pts
	}
	sorted := func(pts []draw.Point) []string {
		var out []string
		for _, p := range pts {
			out = append(out, fmt.Sprintf("%.3f,%.3f", p.X+0, p.Y+0))
		}
		slices.Sort(out)
		return slices.Compact(out)
	}
	for _, kind := range []string{"fuse", "lamp", "unit", "plug", "bar"} {
		for _, mirror := range []bool{false, true} {
			plain := lines(kind, 0, mirror)
			for turns := 1; turns < 4; turns++ {
				var want []draw.Point
				for _, p := range plain {
					x, y := p.X-100, p.Y-75
					for range turns {
						x, y = -y, x
					}
					want = append(want, draw.Point{X: x + 100, Y: y + 75})
				}
				assert.Equal(t, sorted(want), sorted(lines(kind, turns, mirror)), "%s, %d turns, mirror %v", kind, turns, mirror)
			}
		}
	}
}

// Wire labels never touch another text, a body or a foreign wire.
func TestLabelsKeepClear(t *testing.T) {
	for seed := range uint64(4) {
		b := crowd(160, seed+11)
		l := draw.Sheet(b.doc, b.sheet.ID, draw.Options{})
		var labels, blocks []draw.Mark
		for _, m := range l.Marks {
			switch op := m.Op.(type) {
			case *draw.Text:
				if m.Owner.Type == schematic.TypeWire {
					labels = append(labels, m)
				} else {
					blocks = append(blocks, m)
				}
			case *draw.Stroke:
				if op.Ink == draw.InkWireRim {
					for i := 1; i < len(op.Path); i++ {
						p, q := op.Path[i-1].P, op.Path[i].P
						box := draw.Box{Min: draw.Point{X: min(p.X, q.X), Y: min(p.Y, q.Y)}, Max: draw.Point{X: max(p.X, q.X), Y: max(p.Y, q.Y)}}
						blocks = append(blocks, draw.Mark{Bound: box.Grow(op.Width / 2), Owner: m.Owner})
					}
				}
			}
		}
		require.Greater(t, len(labels), 80, "most wires find room, seed %d", seed)
		for i, a := range labels {
			box := a.Op.(*draw.Text).Box()
			for _, c := range labels[:i] {
				assert.False(t, box.Touches(c.Op.(*draw.Text).Box()), "%q and %q", a.Op.(*draw.Text).S, c.Op.(*draw.Text).S)
			}
			for _, c := range blocks {
				assert.False(t, box.Touches(c.Bound), "%q on %v", a.Op.(*draw.Text).S, c.Owner)
			}
		}
	}
}

// Designations are never left out, and on a sheet with room they are clear too.
func TestEveryPartIsNamed(t *testing.T) {
	b := crowd(160, 5)
	l := draw.Sheet(b.doc, b.sheet.ID, draw.Options{})
	s := said(l)
	for p := range b.doc.Parts() {
		assert.Contains(t, s, p.Name)
	}
	sparse := small(t)
	var boxes []draw.Box
	for _, x := range texts(draw.Sheet(sparse.doc, sparse.sheet.ID, draw.Options{})) {
		boxes = append(boxes, x.Box())
	}
	for i, a := range boxes {
		for _, c := range boxes[:i] {
			assert.False(t, a.Touches(c), "%v %v", a, c)
		}
	}
}

func TestBoundsHoldTheMarks(t *testing.T) {
	b := crowd(60, 9)
	for _, m := range draw.Sheet(b.doc, b.sheet.ID, draw.Options{}).Marks {
		assert.False(t, m.Bound.Empty())
		if s, ok := m.Op.(*draw.Stroke); ok {
			for _, q := range s.Path {
				if q.Verb != draw.Close {
					assert.True(t, m.Bound.Encloses(draw.Box{Min: q.P, Max: q.P}.Grow(s.Width/2-1e-9)))
				}
			}
		}
	}
}

// Every kind the program ships draws its body within what the model calls the
// part's reach, so that a click on the symbol finds it.
func TestShippedKindsDrawWithinReach(t *testing.T) {
	lib, err := catalog.Default()
	require.NoError(t, err)
	for _, name := range lib.Names() {
		k := lib.Kind(name)
		for _, sec := range k.Sections {
			b := newBench(4000, 3000)
			b.doc = b.doc.WithLibrary(lib)
			p := catalog.New(k, "P1")
			p.ID = testID(2, 1)
			p.Views = []schematic.View{{Sheet: b.sheet.ID, At: geom.Pt(2000, 1500), Section: sec.Name}}
			b.put(p)
			r := b.doc.Reach(p, p.Views[0])
			x0, y0 := r.Min.MM()
			x1, y1 := r.Max.MM()
			reach := draw.Box{Min: draw.Point{X: x0, Y: y0}, Max: draw.Point{X: x1, Y: y1}}.Grow(1.2)
			for _, m := range draw.Sheet(b.doc, b.sheet.ID, draw.Options{}).Marks {
				if _, isText := m.Op.(*draw.Text); m.Owner == p.Key() && !isText {
					assert.True(t, reach.Encloses(m.Bound), "%s: %v outside %v", name, m.Bound, reach)
				}
			}
		}
	}
}

// A file may hold any nonsense the model's check lets pass or not.
func TestNonsenseDoesNotPanic(t *testing.T) {
	b := newBench(300, 200)
	bad := &schematic.Kind{ID: testID(8, 1), Name: "bad", Sections: []schematic.Section{{Shapes: []schematic.Shape{
		{Type: "line"}, {Type: "rect", Points: []geom.Point{{}}}, {Type: "circle"}, {Type: "circle", Points: []geom.Point{{}}, Radius: -5},
		{Type: "arc", Points: []geom.Point{{}}, Radius: 1 << 30, Start: 1e308, Sweep: 1e308}, {Type: "text"}, {Type: "???"},
		{Type: "text", Points: []geom.Point{{}}, Text: "x\x00\xff漢\n", Size: 1 << 30},
	}}}, Pins: []schematic.Pin{{Name: ""}, {Name: strings.Repeat("long", 1000), Dir: "sideways"}}}
	none := &schematic.Kind{ID: testID(8, 2), Name: "none"}
	b.put(bad, none)
	for i, k := range []string{"bad", "none", "unit", "plug", "bar", "", "nobody"} {
		b.part(k, strings.Repeat("N", i*400), 1<<11*i, -i, func(p *schematic.Part) {
			p.Label = strings.Repeat("word ", 500)
			p.Pins = []schematic.Pin{{Name: "1", Role: "?", Title: strings.Repeat("t", 300)}, {Name: "1", Side: "up"}, {Side: "down"}}
			p.Views[0].Turns = -3
			p.Views[0].Section = "?"
		})
	}
	w := b.wire("", "0,0", "0,0", "", 0)
	for _, via := range []geom.Point{{}, {X: 1 << 30, Y: -1 << 30}} {
		v := *w
		v.ID = testID(3, 900+int(via.X&1))
		v.A = schematic.End{Part: testID(9, 9), Pin: "?"}
		v.Via = []geom.Point{via, via}
		v.Twist, v.Screen = testID(4, 1), testID(4, 1)
		b.put(&v, &schematic.Group{ID: testID(4, 1), Type: schematic.ScreenGroup})
	}
	b.put(&schematic.Note{ID: testID(5, 1), Sheet: b.sheet.ID, Width: 1, Height: 1, Size: 1 << 30, Text: strings.Repeat("a b\n", 100)})
	live := &draw.Live{Currents: map[schematic.ID]draw.Current{w.ID: {}}, Spots: []draw.Spot{{Text: "1 V"}},
		Severity: map[schematic.Key]draw.Severity{w.Key(): {Level: 99}}}
	l := draw.Sheet(b.doc, b.sheet.ID, draw.Options{Live: live})
	ix := draw.NewIndex(l)
	ix.At(draw.Point{X: 1e300, Y: -1e300}, 1e300)
	assert.NotEmpty(t, l.Text())
}

// Of a stud that is drawn twice, the light falls on the one a traced wire ends
// at; with no traced wire at either, on both.
func TestTheLightFallsWhereTheCircuitPasses(t *testing.T) {
	b := newBench(2500, 1800)
	stud := b.part("stud", "GND1", 20, 40, func(p *schematic.Part) {
		p.Views = append(p.Views, schematic.View{Sheet: b.sheet.ID, At: geom.Pt(60*geom.Grid, 40*geom.Grid)})
	})
	b.part("lamp", "E1", 20, 20)
	w := b.wire("W1", "E1.31", "GND1.1", "BK", 1)
	lit := func(keys ...schematic.Key) int { // boxes of light
		trace := map[schematic.Key]bool{}
		for _, k := range keys {
			trace[k] = true
		}
		n := 0
		for _, m := range draw.Sheet(b.doc, b.sheet.ID, draw.Options{Live: &draw.Live{Trace: trace}}).Marks {
			if s, ok := m.Op.(*draw.Stroke); ok && s.Ink == draw.InkTrace && m.Owner == stud.Key() && s.Width < 1 {
				n++
			}
		}
		return n
	}
	assert.Equal(t, 1, lit(stud.Key(), w.Key()))
	assert.Equal(t, 2, lit(stud.Key()))
	assert.Equal(t, 0, lit(w.Key()))
}
