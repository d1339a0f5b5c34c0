package view

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// feed draws battery, fuse, splice and two lamps to ground; the second lamp is
// alike the first, a third hangs on nothing. W1 battery to fuse, W2 fuse to
// splice, W3 and W4 splice to lamps, W5 and W6 lamps to ground, W7 ground to
// battery. Another sheet shows the ground once more, with a wire W8 to nowhere.
type feed struct {
	*testing.T
	*edit.Session
	sheets [2]schematic.ID
}

func newFeed(t *testing.T) feed {
	lib, err := catalog.Default()
	require.NoError(t, err)
	f := feed{T: t, Session: edit.NewSession(schematic.New(lib), nil, nil)}
	must := func(fn func(*edit.Tx) error) { require.NoError(t, f.Do("draw", fn)) }
	must(func(tx *edit.Tx) error { return edit.AddSheet(tx, "One") })
	must(func(tx *edit.Tx) error { return edit.AddSheet(tx, "Two") })
	for i, s := range f.Doc().Sheets() {
		f.sheets[i] = s.ID
	}
	for i, kind := range []string{"battery", "fuse-mini", "splice", "lamp", "lamp", "ground-body", "lamp"} {
		must(func(tx *edit.Tx) error {
			return edit.PlacePart(tx, kind, f.sheets[0], geom.Pt(200+300*i, 500), geom.Orient{})
		})
	}
	for _, ends := range []string{"G1.+ F1.1", "F1.2 SP1.1", "SP1.1 E1.1", "SP1.1 E2.1", "E1.2 GND1.1", "E2.2 GND1.1", "GND1.1 G1.-"} {
		a, b, _ := strings.Cut(ends, " ")
		must(func(tx *edit.Tx) error { return edit.AddWire(tx, f.sheets[0], f.pin(a), f.pin(b), nil, nil) })
	}
	must(func(tx *edit.Tx) error {
		return edit.ShowPart(tx, f.key("GND1").ID, f.sheets[1], "", geom.Pt(500, 500), geom.Orient{})
	})
	must(func(tx *edit.Tx) error {
		return edit.AddWire(tx, f.sheets[1], f.pin("GND1.1"), edit.Anchor{At: geom.Pt(900, 900)}, nil, nil)
	})
	return f
}

func (f feed) key(name string) schematic.Key {
	k, ok := f.Doc().Named(name)
	require.True(f, ok, name)
	return k
}

func (f feed) keys(names string) (keys []schematic.Key) {
	for _, n := range strings.Fields(names) {
		keys = append(keys, f.key(n))
	}
	return keys
}

func (f feed) pin(text string) edit.Anchor {
	name, pin, _ := strings.Cut(text, ".")
	return edit.Anchor{Part: f.key(name).ID, Pin: pin}
}

// said prints keys by name in order.
func (f feed) said(keys []schematic.Key) string {
	var names []string
	for _, k := range keys {
		names = append(names, schematic.NameOf(f.Doc().Get(k)))
	}
	slices.SortFunc(names, schematic.CompareNames)
	return strings.Join(names, " ")
}

func TestConnected(t *testing.T) {
	f := newFeed(t)
	step := func(names string) string {
		return f.said(Connected(f.Doc(), f.sheets[0], f.keys(names)))
	}
	assert.Equal(t, "F1 SP1 W2", step("W2"), "a wire brings the parts at its ends")
	assert.Equal(t, "F1 SP1 W1 W2 W3 W4", step("F1 SP1 W2"), "then come the wires at those")
	assert.Equal(t, "E3", step("E3"), "a part without wires stays alone")
	assert.Equal(t, "GND1 W5 W6 W7", step("GND1"), "wires of another sheet are left out")
	assert.Empty(t, step(""))
}

func TestOnNet(t *testing.T) {
	f := newFeed(t)
	net := func(sheet int, names string) string {
		return f.said(OnNet(netlist.Build(f.Doc()), f.sheets[sheet], f.keys(names)))
	}
	assert.Equal(t, "SP1 W2 W3 W4", net(0, "W3"), "a splice belongs to its net, the fuse beside it does not")
	assert.Equal(t, "W1", net(0, "W1"))
	assert.Equal(t, "GND1 W5 W6 W7", net(0, "W7"))
	assert.Equal(t, "GND1 W8", net(1, "W8"), "the net goes on over sheets, the selection does not")
	assert.Equal(t, "F1 SP1 W1 W2 W3 W4", net(0, "F1"), "a part means the nets of all its pins")
}

// TestOverAllSheets asks for what lies on any sheet: the zero ID.
func TestOverAllSheets(t *testing.T) {
	f := newFeed(t)
	n := netlist.Build(f.Doc())
	assert.Equal(t, "GND1 W5 W6 W7 W8", f.said(OnNet(n, schematic.ID{}, f.keys("W8"))), "the net of the other sheet too")
	require.NoError(t, f.Do("source on the other sheet", func(tx *edit.Tx) error {
		tx.EditPart(f.key("G1").ID, func(p *schematic.Part) { p.Views = []schematic.View{{Sheet: f.sheets[1], At: geom.Pt(900, 500)}} })
		for _, name := range []string{"W1", "W7"} {
			tx.EditWire(f.key(name).ID, func(w *schematic.Wire) { w.Sheet = f.sheets[1] })
		}
		return nil
	}))
	sol := netlist.Build(f.Doc()).Solve(nil)
	assert.Equal(t, "E1 F1 G1 GND1 SP1 W1 W2 W3 W5 W7", f.said(Circuit(sol, schematic.ID{}, f.keys("E1"))), "source and its wires lie on the other sheet")
	assert.NotContains(t, f.said(Circuit(sol, f.sheets[0], f.keys("E1"))), "G1")
	assert.Len(t, All(f.Doc(), schematic.ID{}), f.Doc().Len(schematic.TypePart)+f.Doc().Len(schematic.TypeWire)+f.Doc().Len(schematic.TypeNote))
	assert.False(t, DrawnOn(f.Doc(), f.Doc().Sheets()[0].Key(), schematic.ID{}), "a sheet is not drawn on one")
}

func TestCircuit(t *testing.T) {
	f := newFeed(t)
	assert.Equal(t, "E1 F1 G1 GND1 SP1 W1 W2 W3 W5 W7", f.said(Circuit(netlist.Build(f.Doc()).Solve(nil), f.sheets[0], f.keys("E1"))),
		"without a current it is the way there would be, source and all")
	for name, values := range map[string]map[string]float64{"F1": {"amp": 10}, "G1": {"volt": 12.6, "ohm": 0.01}, "E1": {"watt": 21}, "E2": {"watt": 21}} {
		require.NoError(t, f.Do("rate", func(tx *edit.Tx) error {
			return edit.SetPart(tx, f.key(name).ID, func(p *schematic.Part) { p.Values = values })
		}))
	}
	sol := netlist.Build(f.Doc()).Solve(nil)
	require.NoError(t, sol.Err)
	assert.Equal(t, "E1 F1 G1 GND1 SP1 W1 W2 W3 W5 W7", f.said(Circuit(sol, f.sheets[0], f.keys("E1"))),
		"the other lamp is not on the way, the splice is")
	assert.Contains(t, f.said(Circuit(sol, f.sheets[0], f.keys("W1"))), "E2", "the common feed supplies both lamps")
	assert.Equal(t, "E3", f.said(Circuit(sol, f.sheets[0], f.keys("E3"))))
	assert.Equal(t, "W1", f.said(Circuit(&netlist.Solution{Netlist: sol.Netlist, Err: assert.AnError}, f.sheets[0], f.keys("W1"))),
		"without figures there is no circuit to follow")
}

func TestAlike(t *testing.T) {
	f := newFeed(t)
	wire := func(name string, mm2 float64, color string) {
		c, err := schematic.ParseColor(color)
		require.NoError(t, err)
		require.NoError(t, f.Do("set", func(tx *edit.Tx) error {
			return edit.SetWire(tx, f.key(name).ID, func(w *schematic.Wire) {
				if w.Color = c; mm2 > 0 {
					w.Size = unit.MM2(mm2)
				}
				w.Circuit = map[bool]string{true: "lamps"}[name != "W1"]
			})
		}))
	}
	wire("W1", 2.5, "RD")
	wire("W2", 2.5, "RD/WH")
	wire("W3", 1, "RD")
	wire("W4", 1, "RD")
	wire("W5", 0, "")
	wire("W6", 0, "")
	for name, watt := range map[string]float64{"E1": 21, "E2": 21, "E3": 5} {
		require.NoError(t, f.Do("set", func(tx *edit.Tx) error {
			return edit.SetPart(tx, f.key(name).ID, func(p *schematic.Part) { p.Values = map[string]float64{"watt": watt} })
		}))
	}
	for _, c := range []struct {
		why, from string
		by        Likeness
		want      string
	}{
		{"all lamps are one kind", "E1", SameKind, "E1 E2 E3"},
		{"a kind of its own finds no other", "G1", SameKind, "G1"},
		{"wires of one size and colour", "W3", SameKind, "W3 W4"},
		{"several at once", "W3 G1 E1", SameKind, "E1 E2 E3 G1 W3 W4"},
		{"rated power, not just the kind", "E1", SameRating, "E1 E2"},
		{"a rating nobody gave is like nothing", "F1", SameRating, "F1"},
		{"a splice has no rating", "SP1", SameRating, "SP1"},
		{"size whatever the colour", "W1", SameSize, "W1 W2"},
		{"an unknown size is like nothing", "W5", SameSize, "W5"},
		{"colour whatever the size; the tracer counts", "W1", SameColor, "W1 W3 W4"},
		{"no colour is like nothing", "W5", SameColor, "W5"},
		{"circuit name", "W2", SameCircuit, "W2 W3 W4 W5 W6"},
	} {
		assert.Equal(t, c.want, f.said(Alike(f.Doc(), f.sheets[0], f.keys(c.from), c.by)), c.why)
	}
}

func TestOthers(t *testing.T) {
	f := newFeed(t)
	assert.Equal(t, "GND1", f.said(Others(f.Doc(), f.sheets[1], f.keys("W8"))))
	assert.Len(t, Others(f.Doc(), f.sheets[0], nil), 14)
	assert.Empty(t, Others(f.Doc(), f.sheets[0], All(f.Doc(), f.sheets[0])))
}

func TestNextInReadingOrder(t *testing.T) {
	f := newFeed(t)
	require.NoError(t, f.Do("note", func(tx *edit.Tx) error { return edit.AddNote(tx, f.sheets[0], geom.Pt(10, 10), 50, 50, "n") }))
	var names []string
	k := schematic.Key{}
	for range 16 {
		var ok bool
		k, ok = Next(f.Doc(), f.sheets[0], k, 1)
		require.True(t, ok)
		names = append(names, f.said([]schematic.Key{k}))
	}
	assert.Equal(t, "G1 F1 SP1 E1 E2 GND1 E3", strings.Join(names[:7], " "), "parts of the row from left to right")
	assert.Equal(t, "", names[14], "the note comes last")
	assert.Equal(t, "G1", names[15], "and then the first again")
	for i := 14; i >= 0; i-- {
		k, _ = Next(f.Doc(), f.sheets[0], k, -1)
		assert.Equal(t, names[i], f.said([]schematic.Key{k}), "back the same way")
	}
	last, _ := Next(f.Doc(), f.sheets[0], schematic.Key{}, -1)
	assert.Equal(t, schematic.TypeNote, last.Type, "from nothing back is the last")
	_, ok := Next(schematic.New(nil), f.sheets[0], schematic.Key{}, 1)
	assert.False(t, ok)
}
