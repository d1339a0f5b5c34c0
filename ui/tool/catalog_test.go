package tool

import (
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// TestPlaceEveryBuiltInKind puts one part of every kind the program knows on a
// sheet, turned and mirrored, and takes the wire tool to its first pin.
func TestPlaceEveryBuiltInKind(t *testing.T) {
	lib, err := catalog.Default()
	if err != nil {
		t.Fatal(err)
	}
	if lib.Kind(edit.SpliceKind) == nil {
		t.Errorf("no kind is named %q: wires could not be joined", edit.SpliceKind)
	}
	for _, kind := range lib.Names() {
		t.Run(kind, func(t *testing.T) {
			w := newWindow(t)
			w.sess = edit.NewSession(w.Doc().WithLibrary(lib), nil, nil)
			w.use("", Place(kind))
			w.send("", KeyPress{"R"})
			w.send("", KeyPress{"M"})
			w.send("", Move{At: geom.Pt(1003, 998)})
			w.send("", Press{At: geom.Pt(1003, 998), Clicks: 1})
			if len(w.Selection()) == 0 {
				t.Fatalf("not placed:\n%s", w.out.String())
			}
			for _, k := range w.Selection() {
				p := w.Doc().Part(k.ID)
				v := p.Views[0]
				pins := w.Doc().PlacedPins(p, v)
				if len(pins) == 0 {
					continue
				}
				if pins[0].At != pins[0].At.Snap(geom.Grid) {
					t.Errorf("pin %s at %v is off the grid", pins[0].Pin.Name, pins[0].At)
				}
				wire, _ := New("wire")
				w.use("", wire)
				end := pins[0].At.Add(geom.Pt(300, 700))
				w.send("", Press{At: pins[0].At, Clicks: 1})
				w.send("", Move{At: end, Pixels: draw.Point{X: 900}})
				w.send("", KeyPress{"Enter"})
				if n := len(w.Doc().WiresAt(schematic.PinRef{Part: p.ID, Pin: pins[0].Pin.Name})); n != 1 {
					t.Errorf("no wire at pin %s of %s:\n%s", pins[0].Pin.Name, p.Name, w.out.String())
				}
			}
			if ps := schematic.Check(w.Doc()); len(ps) > 0 {
				t.Errorf("broken: %v", ps)
			}
		})
	}
}
