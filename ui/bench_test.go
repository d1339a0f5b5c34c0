package ui

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// bigHarness has n wires: lamps in rows, each fed over a terminal and a fuse and
// grounded, the terminals in a chain.
func bigHarness(b *testing.B, n int) *schematic.Doc {
	lib, err := catalog.Default()
	require.NoError(b, err)
	d := emptyDocument(lib)
	sheet := d.Sheets()[0].ID
	tx := edit.Begin(d, nil)
	require.NoError(b, edit.SetSheet(tx, sheet, func(s *schematic.Sheet) { s.Width, s.Height = 20000, 20000 }))
	var items []schematic.Item
	part := func(name, kind string, x, y int, values map[string]float64) *schematic.Part {
		p := &schematic.Part{ID: tx.NewID(), Name: name, Kind: kind, Values: values, Views: []schematic.View{{Sheet: sheet, At: geom.Pt(x, y)}}}
		items = append(items, p)
		return p
	}
	size, _ := unit.ParseSize("1.5 mm2")
	wire := func(i int, a *schematic.Part, pa string, z *schematic.Part, pz string) {
		items = append(items, &schematic.Wire{ID: tx.NewID(), Name: fmt.Sprintf("W%d", i), Sheet: sheet, Size: size, LengthMM: schematic.Some(1000), Insulation: "FLRY",
			Color: schematic.Color{Base: "RD"}, A: schematic.End{Part: a.ID, Pin: pa}, B: schematic.End{Part: z.ID, Pin: pz}})
	}
	bat := part("G1", "battery", 200, 600, nil)
	gnd := part("GND1", "ground-body", 200, 1000, nil)
	wire(1, bat, "-", gnd, "1")
	feed, pin := bat, "+"
	for i := 2; i+3 <= n; i += 4 {
		x, y := 500+(i/4%60)*300, 300+(i/4/60)*800
		r := part(fmt.Sprintf("X%d", i), "ring-terminal", x, y, nil)
		f := part(fmt.Sprintf("F%d", i), "fuse-regular", x, y+200, map[string]float64{"amp": 10})
		e := part(fmt.Sprintf("E%d", i), "lamp", x, y+400, map[string]float64{"watt": 0.1})
		g := part(fmt.Sprintf("GND%d", i), "ground-body", x, y+600, nil)
		wire(i, feed, pin, r, "1")
		wire(i+1, r, "2", f, "1")
		wire(i+2, f, "2", e, "1")
		wire(i+3, e, "2", g, "1")
		feed, pin = r, "1"
	}
	tx.Put(items...)
	return tx.Doc()
}

func benchRig(b *testing.B, n int) *Editor {
	lib, err := catalog.Default()
	require.NoError(b, err)
	app := test.NewTempApp(b)
	// Electricity is worked out beside the window: here it is left out.
	idle := crew{spawn: func(func()) {}, post: func(f func()) { f() }}
	p, err := newProgram(app, lib, "", idle, time.Now)
	require.NoError(b, err)
	ed := newEditor(p, Options{})
	ed.win.Resize(fyne.NewSize(1600, 1000))
	ed.take(bigHarness(b, n), openFile{})
	return ed
}

// What the window does in its own goroutine for one edit.
func BenchmarkEditStep(b *testing.B) {
	for _, n := range []int{100, 1000, 10000} {
		b.Run(fmt.Sprintf("wires=%d", n), func(b *testing.B) {
			ed := benchRig(b, n)
			k, _ := ed.doc().Named("F2")
			ed.choose(k)
			for b.Loop() {
				ed.nudge(geom.Pt(geom.Grid, 0))
			}
		})
	}
}

// One move of the pointer over the sheet.
func BenchmarkHover(b *testing.B) {
	for _, n := range []int{1000, 10000} {
		b.Run(fmt.Sprintf("wires=%d", n), func(b *testing.B) {
			ed := benchRig(b, n)
			ed.pictures.base = ed.pictures.make(wanted{ed.doc(), ed.sheet, ed.drawOptions()})
			x := float32(0)
			for b.Loop() {
				x += 3
				if x > 900 {
					x = 0
				}
				ed.sheetView.MouseMoved(mouse(fyne.NewPos(100+x, 300), 0, 0))
			}
		})
	}
}

// From an edit to currents and findings of all states, beside the window.
func BenchmarkStudy(b *testing.B) {
	for _, n := range []int{100, 1000} {
		b.Run(fmt.Sprintf("wires=%d", n), func(b *testing.B) {
			d := bigHarness(b, n)
			w := slices.SortedFunc(d.Wires(), func(x, y *schematic.Wire) int { return x.Key().Compare(y.Key()) })[n/2]
			var edits netlist.Study
			for i := 0; b.Loop(); i++ {
				other := *w
				other.Size = unit.MM2([]float64{1, 1.5, 2.5}[i%3])
				compute(&edits, d.With(schematic.Put{Key: w.Key(), Item: &other}))
			}
		})
	}
}

// A frame of a pan.
func BenchmarkPanFrame(b *testing.B) {
	for _, n := range []int{1000, 10000} {
		b.Run(fmt.Sprintf("wires=%d", n), func(b *testing.B) {
			ed := benchRig(b, n)
			ed.pictures.base = ed.pictures.make(wanted{ed.doc(), ed.sheet, ed.drawOptions()})
			v := ed.sheetView
			dx := 3.0
			for b.Loop() {
				dx = -dx
				v.look(v.cam.Pan(dx, 0))
				v.paint(v.cam.W, v.cam.H)
			}
		})
	}
}
