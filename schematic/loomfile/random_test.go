package loomfile

import (
	"fmt"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/canon"
	"loomwright/schematic/geom"
)

// library returns a few kinds of each sort: fixed pins, own pins, two halves.
func library(t testing.TB) *schematic.Library {
	t.Helper()
	data, err := os.ReadFile("testdata/kinds.json")
	require.NoError(t, err)
	var f struct {
		Kinds []*schematic.Kind `json:"kinds"`
	}
	require.NoError(t, canon.Decode(data, &f))
	return schematic.NewLibrary(f.Kinds...)
}

// maker makes documents at random, the same for the same seed, with unknown
// fields wherever the model keeps them.
type maker struct {
	*rand.Rand
	lib   *schematic.Library
	plain bool // without unknown fields and links, as most drawings are
}

func newMaker(t testing.TB, seed uint64) *maker {
	return &maker{Rand: rand.New(rand.NewPCG(seed, 7)), lib: library(t)}
}

func (m *maker) chance(percent int) bool { return m.IntN(100) < percent }

func (m *maker) id() (id schematic.ID) {
	for i := range id {
		id[i] = byte(m.Uint32())
	}
	return id
}

func pick[T any](m *maker, list ...T) T { return list[m.IntN(len(list))] }

func (m *maker) text() string {
	return pick(m, "", "fan, left", "größer", "a \"quoted\" <b> & c\\d", "line 1\nline 2\t", "電線 🔌", "\u2028", "null", "F3.1", "/")
}

func (m *maker) num() schematic.Num {
	if m.chance(40) {
		return schematic.Num{}
	}
	return schematic.Some(pick(m, 0, 1, 0.1, 12.6, 1e9, 1e-9, 1.0/3, m.Float64()*1000))
}

func (m *maker) point() geom.Point {
	return geom.Pt(geom.Grid*(m.IntN(200)-100), geom.Grid*(m.IntN(200)-100))
}

func (m *maker) extra() schematic.Extra {
	if m.plain || m.chance(60) {
		return nil
	}
	x := schematic.Extra{}
	for range 1 + m.IntN(3) {
		x[pick(m, "later", "zebra", "a b", "ünknown", "")] = []byte(pick(m, `1.50`, `"x"`, `null`, `[]`, `{"k":[1,{"d":-0}]}`, `true`, `1e400`))
	}
	return x
}

func (m *maker) values() map[string]float64 {
	if m.chance(60) {
		return nil
	}
	return map[string]float64{"amp": float64(m.IntN(100)), pick(m, "ohm", "a b", "watt"): m.Float64()}
}

func (m *maker) links() []schematic.Link {
	if m.plain || m.chance(80) {
		return nil
	}
	return []schematic.Link{{Title: m.text(), Target: "build/photo 1.jpg", Extra: m.extra()}}
}

func (m *maker) build() schematic.Build {
	return pick(m, append(schematic.Builds(), "")...)
}

// doc makes a document with n wires that passes [schematic.Check].
func (m *maker) doc(t testing.TB, n int) *schematic.Doc {
	var items []schematic.Item
	put := func(it schematic.Item) { items = append(items, it) }
	put(&schematic.Info{Title: m.text(), Notes: m.text(), SystemVolt: pick(m, schematic.Num{}, schematic.Some(12), schematic.Some(24), schematic.Some(0.1)), AmbientC: m.num(),
		Limits: m.values(), Choices: map[string]string{"bundle": m.text()}, Links: m.links(), Extra: m.extra()})
	var sheets []schematic.ID
	for i := range 1 + m.IntN(3) {
		sheets = append(sheets, m.id())
		put(&schematic.Sheet{ID: sheets[i], Name: fmt.Sprint("sheet ", i), Order: m.IntN(3), Width: m.IntN(5000), Notes: m.text(), Extra: m.extra()})
	}
	if m.chance(50) {
		put(m.kind())
	}
	loom := m.loom()
	put(loom)
	twist, screen := m.id(), m.id()
	put(&schematic.Group{ID: twist, Name: "T1", Type: schematic.TwistGroup, Extra: m.extra()})
	var parts []*schematic.Part
	for i := range 2 + n/2 {
		parts = append(parts, m.part(i, sheets, loom))
	}
	m.mate(parts)
	for _, p := range parts {
		put(p)
	}
	var wires []schematic.ID
	for i := range n {
		w := m.wire(i, pick(m, sheets...), parts, loom)
		if m.chance(20) {
			w.Twist = twist
		}
		if m.chance(20) {
			w.Screen = screen
		}
		wires = append(wires, w.ID)
		put(w)
	}
	g := &schematic.Group{ID: screen, Name: "SCR1", Type: schematic.ScreenGroup}
	if len(wires) > 0 {
		g.Drain = pick(m, wires...)
	}
	put(g)
	for i := range m.IntN(4) {
		s := &schematic.State{ID: m.id(), Name: m.text(), Order: i, Engine: pick(m, "", schematic.EngineOff, schematic.EngineRunning), Notes: m.text(), Extra: m.extra()}
		for range m.IntN(4) {
			s.Set = append(s.Set, schematic.Setting{Part: pick(m, parts...).ID, Item: m.text(), Position: "on",
				Duty: pick(m, schematic.Num{}, schematic.Some(0), schematic.Some(0.25)), Extra: m.extra()})
		}
		put(s)
		p := pick(m, parts...)
		r := &schematic.Reading{ID: m.id(), Date: fmt.Sprintf("2024-05-%02d", m.IntN(30)), Quantity: pick(m, "volt", "amp", "ohm"),
			From: schematic.PinRef{Part: p.ID, Pin: pinOf(p)}, State: s.ID, Value: m.Float64(), Notes: m.text(), Extra: m.extra()}
		if m.chance(50) {
			r.To = r.From
		}
		put(r)
		a := &schematic.Acceptance{ID: m.id(), Rule: pick(m, "voltage drop", "no fuse"), Detail: m.text(), Severity: "warning", Value: m.num(), Limit: m.num(), Unit: "V",
			Missing: m.text(), Reason: "looked at, " + m.text(), Date: "2024-05-01", Extra: m.extra()}
		if m.chance(70) {
			a.Items = []schematic.Subject{{Part: p.ID}, {Wire: m.id()}, {}}
		}
		put(a)
		put(&schematic.Note{ID: m.id(), Sheet: pick(m, sheets...), At: m.point(), Width: m.IntN(200), Text: m.text(), Extra: m.extra()})
	}
	puts := make([]schematic.Put, len(items))
	for i, it := range items {
		puts[i] = schematic.Put{Key: it.Key(), Item: it}
	}
	d := schematic.New(m.lib).WithExtra(m.extra()).With(puts...)
	require.Empty(t, schematic.Check(d), "the generator makes sound documents")
	return d
}

func (m *maker) kind() *schematic.Kind {
	return &schematic.Kind{ID: m.id(), Name: "own-box", Title: m.text(), Group: "Own", Prefix: "A", OwnPins: true, Help: m.text(),
		Params:    []schematic.Param{{Name: "ohm", Title: "resistance", Unit: "ohm", Default: m.num(), Source: m.text(), Extra: m.extra()}},
		Pins:      []schematic.Pin{{Name: "1", Role: "plain", Side: "left", Extra: m.extra()}},
		Roles:     []schematic.Role{{Name: "plain", Title: "pin", Shapes: []schematic.Shape{m.shape()}, Extra: m.extra()}},
		Elements:  []schematic.Element{{Name: "r", Type: schematic.ElemResistor, A: "#out", B: "#in", Args: map[string]schematic.Arg{"ohm": {Param: "ohm"}, "x": {Value: 0.5}}, When: []schematic.Engine{schematic.EngineIdle}, Extra: m.extra()}},
		Sections:  []schematic.Section{{Form: "box", MinWidth: m.IntN(500), Shapes: []schematic.Shape{m.shape()}, Tag: m.point(), Extra: m.extra()}},
		Positions: []string{"off", "on"}, Extra: m.extra()}
}

func (m *maker) shape() schematic.Shape {
	return schematic.Shape{Type: "arc", Points: []geom.Point{m.point(), m.point()}, Radius: m.IntN(100), Start: m.Float64() * 360, Sweep: -90, Text: m.text(), Dashed: m.chance(50), Extra: m.extra()}
}

func (m *maker) loom() *schematic.Loom {
	l := &schematic.Loom{ID: m.id(), Name: "L1", Notes: m.text(), Links: m.links(), Extra: m.extra()}
	for i := range 2 + m.IntN(3) {
		l.Nodes = append(l.Nodes, schematic.Node{ID: m.id(), Name: fmt.Sprint("N", i), At: m.point(), Extra: m.extra()})
		if i > 0 {
			l.Segments = append(l.Segments, schematic.Segment{ID: m.id(), Name: m.text(), From: l.Nodes[i-1].ID, To: l.Nodes[i].ID, LengthMM: m.num(), AmbientC: m.num(), Sleeve: m.text(),
				Holes: []schematic.Hole{{Name: "firewall", DiameterMM: m.num(), Extra: m.extra()}}, Extra: m.extra()})
		}
	}
	return l
}

func (m *maker) part(i int, sheets []schematic.ID, loom *schematic.Loom) *schematic.Part {
	p := &schematic.Part{ID: m.id(), Kind: pick(m, append(m.lib.Names(), "nobody-defines-this")...), Label: m.text(), Values: m.values(),
		Number: m.text(), Build: m.build(), Notes: m.text(), Links: m.links(), Extra: m.extra()}
	p.Name = fmt.Sprint(pick(m, "F", "K", "GND"), i)
	for j, s := range sheets { // shown on every sheet, so that any wire finds it
		p.Views = append(p.Views, schematic.View{Key: fmt.Sprint("v", j), Sheet: s, At: m.point(), Turns: m.IntN(4), Mirror: m.chance(50), Tag: pick(m, geom.Point{}, m.point()), Extra: m.extra()})
	}
	if p.Kind == "plug" || p.Kind == "receptacle" {
		p.Pins = []schematic.Pin{{Name: "1", Role: "cavity", Title: m.text(), Values: m.values(), Side: "right", Extra: m.extra()}, {Name: "2", Role: "cavity"}}
		p.Housing = &schematic.Housing{Type: m.text(), Gender: "pin", Sealed: m.chance(50), ContactMM: m.num(), RatedAmp: m.num(), Extra: m.extra()}
		if m.chance(20) {
			p.Housing = &schematic.Housing{}
		}
	}
	if m.chance(50) {
		p.Loom, p.Node = loom.ID, loom.Nodes[0].ID
	}
	return p
}

func (m *maker) mate(parts []*schematic.Part) {
	var free *schematic.Part
	for _, p := range parts {
		switch {
		case p.Housing == nil:
		case free == nil:
			free = p
		default:
			p.Mate, free.Mate, free = free.ID, p.ID, nil
		}
	}
}

func pinOf(p *schematic.Part) string {
	if p.Kind == "cell" {
		return "+"
	}
	return "1"
}

func (m *maker) end(parts []*schematic.Part, sheet schematic.ID) schematic.End {
	if m.chance(20) {
		return schematic.End{At: m.point(), Extra: m.extra()}
	}
	p := pick(m, parts...)
	e := schematic.End{Part: p.ID, Pin: pinOf(p), Terminal: m.text(), JointOhm: m.num(), Extra: m.extra()}
	for _, v := range p.Views {
		if v.Sheet == sheet {
			e.View = v.Key
		}
	}
	return e
}

func (m *maker) wire(i int, sheet schematic.ID, parts []*schematic.Part, loom *schematic.Loom) *schematic.Wire {
	w := &schematic.Wire{ID: m.id(), Name: fmt.Sprint("W", i), Sheet: sheet, A: m.end(parts, sheet), B: m.end(parts, sheet),
		Metal: pick(m, "", schematic.Copper, schematic.Tinned), Insulation: pick(m, "", "FLRY"), LengthMM: m.num(), SlackMM: m.num(), TempC: m.num(),
		Size:    pick(m, unit.Size{}, unit.MM2(0.75), unit.GaugeAWG(-1), unit.GaugeSAE(14)),
		Color:   pick(m, schematic.Color{}, schematic.Color{Base: "BK"}, schematic.Color{Base: "BU", Tracer: "RD"}),
		Circuit: m.text(), Build: m.build(), Notes: m.text(), Links: m.links(), Extra: m.extra()}
	for range m.IntN(4) {
		w.Via = append(w.Via, m.point())
	}
	if m.chance(50) {
		w.Loom = loom.ID
		w.Route = append(w.Route, loom.Segments[0].ID)
	}
	return w
}
