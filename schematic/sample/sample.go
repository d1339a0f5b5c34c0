// Package sample makes harnesses of any size that look like harnesses: sources,
// main fuses, fuse blocks, relays, switches, connectors, splices, loads and
// grounds on several sheets, routed along looms, with operating states. They
// serve benchmarks and trials of large drawings. Start with [Harness].
package sample

import (
	"fmt"
	"math/rand/v2"

	"github.com/google/uuid"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// LeastWires is the smallest harness there is: sources, main fuses and one
// circuit.
const LeastWires = 25

// circuitsASheet is how many circuits one sheet, fuse block and loom serve.
const circuitsASheet = 8

// Harness returns a harness with the given number of wires, at least
// [LeastWires]. The same seed gives the same document. The kinds used are those
// of the program's own library.
func Harness(lib *schematic.Library, wires int, seed uint64) *schematic.Doc {
	m := &maker{
		lib: lib, rng: rand.New(rand.NewPCG(seed, 0)), seed: seed, left: max(wires, LeastWires), share: min(1, 150/float64(max(wires, 1))),
		parts: map[string]*schematic.Part{}, space: uuid.NewSHA1(uuid.Nil, fmt.Appendf(nil, "sample %d %d", wires, seed)),
	}
	m.info = schematic.Info{Title: fmt.Sprintf("Sample harness of %d wires", m.left), AmbientC: schematic.Some(40)}
	m.power()
	for m.left >= leastCircuit {
		m.zone()
	}
	m.rest()
	m.states()
	return m.doc()
}

// leastCircuit is how many wires a circuit with one load takes, with the feed of
// a new fuse block and the strap of its ground.
const leastCircuit = 8 + 3

type maker struct {
	lib   *schematic.Library
	rng   *rand.Rand
	seed  uint64
	space uuid.UUID
	left  int     // wires still to be made
	share float64 // of the usual size of loads, so that one battery carries them all

	info   schematic.Info
	items  []schematic.Item
	parts  map[string]*schematic.Part
	sheet  *schematic.Sheet
	loom   *schematic.Loom
	front  []schematic.ID // segments from the fuse block to the connector
	sheets int
	zones  int
	wires  int
	loads  int
	next   int // circuits so far
	splice string
	ground string
}

func (m *maker) id(name string) schematic.ID { return uuid.NewSHA1(m.space, []byte(name)) }

func (m *maker) put(it schematic.Item) { m.items = append(m.items, it) }

func (m *maker) doc() *schematic.Doc {
	puts := []schematic.Put{{Key: m.info.Key(), Item: &m.info}}
	for _, it := range m.items {
		puts = append(puts, schematic.Put{Key: it.Key(), Item: it})
	}
	return schematic.New(m.lib).With(puts...)
}

func (m *maker) newSheet(name string) {
	m.sheets++
	m.sheet = &schematic.Sheet{ID: m.id("sheet " + name), Name: name, Order: m.sheets, Width: 8400, Height: 5950}
	m.put(m.sheet)
}

// at is a place on the sheet in steps of 2.5 mm.
func at(x, y int) geom.Point { return geom.Pt(25*x, 25*y) }

// part places a new part on the present sheet.
func (m *maker) part(name, kind, label string, x, y int, values map[string]float64) *schematic.Part {
	p := &schematic.Part{ID: m.id(name), Name: name, Kind: kind, Label: label, Values: values,
		Views: []schematic.View{{Sheet: m.sheet.ID, At: at(x, y)}}}
	m.parts[name] = p
	m.put(p)
	return p
}

// show puts a part on the present sheet as well.
func (m *maker) show(p *schematic.Part, section string, x, y int) {
	for _, v := range p.Views {
		if v.Sheet == m.sheet.ID {
			return
		}
	}
	p.Views = append(p.Views, schematic.View{Key: m.sheet.Name, Sheet: m.sheet.ID, At: at(x, y), Section: section})
}

// wire joins two pins on the present sheet, along a route or of a given length.
func (m *maker) wire(fromPart, fromPin, toPart, toPin, size, colour string, mm float64, route ...schematic.ID) {
	m.wires++
	m.left--
	s, err := unit.ParseSize(size)
	if err != nil {
		panic("sample: " + err.Error()) // the sizes are written below
	}
	c, err := schematic.ParseColor(colour)
	if err != nil {
		panic("sample: " + err.Error())
	}
	w := &schematic.Wire{ID: m.id(fmt.Sprint("wire ", m.wires)), Name: fmt.Sprintf("W%d", m.wires), Sheet: m.sheet.ID,
		A: schematic.End{Part: m.parts[fromPart].ID, Pin: fromPin}, B: schematic.End{Part: m.parts[toPart].ID, Pin: toPin},
		Size: s, Color: c, Insulation: "FLRY"}
	if len(route) > 0 {
		w.Loom, w.Route, w.SlackMM = m.loom.ID, route, schematic.Some(mm)
	} else {
		w.LengthMM = schematic.Some(mm)
	}
	m.put(w)
}

// power makes the sources, their fuses and the rail everything hangs on.
func (m *maker) power() {
	m.newSheet("Power")
	m.part("G1", "battery", "battery", 20, 60, map[string]float64{"cold_crank_amp": 720, "capacity_ah": 80})
	m.part("G2", "alternator", "alternator", 60, 60, map[string]float64{"limit_amp": 150})
	m.part("F9001", "fuse-sf51", "main fuse", 40, 20, map[string]float64{"amp": 125, "break_amp": 5000})
	m.part("F9002", "fuse-sf51", "alternator fuse", 80, 20, map[string]float64{"amp": 125, "break_amp": 5000})
	rail := m.part("X901", "bus-bar", "main rail", 110, 20, nil)
	rail.Pins = []schematic.Pin{{Name: "1", Role: "stud", Side: "up"}, {Name: "2", Role: "stud", Side: "up"}}
	m.part("GND901", "ground-body", "body ground", 20, 100, nil)
	m.part("GND902", "ground-engine", "engine ground", 60, 100, nil)
	m.part("GND903", "ground-body", "engine strap", 100, 100, nil)
	m.wire("G1", "+", "F9001", "1", "70mm2", "RD", 150)
	m.wire("F9001", "2", "X901", "1", "70mm2", "RD", 700)
	m.wire("G2", "B+", "F9002", "1", "50mm2", "RD", 150)
	m.wire("F9002", "2", "X901", "2", "50mm2", "RD", 600)
	m.wire("G1", "-", "GND901", "1", "70mm2", "BK", 250)
	m.wire("G2", "B-", "GND902", "1", "50mm2", "BK", 200)
	m.wire("GND902", "1", "GND903", "1", "50mm2", "BK", 400)
}

// zone makes a sheet with a fuse block, a loom with an in-line connector, a rear
// ground and as many circuits as there is room and wires for.
func (m *maker) zone() {
	m.zones++
	z := m.zones
	name := fmt.Sprintf("Zone %d", z)
	m.newSheet(name)
	rail, pin, fuse := m.parts["X901"], fmt.Sprint(z+2), fmt.Sprintf("F%d", 9002+z)
	rail.Pins = append(rail.Pins, schematic.Pin{Name: pin, Role: "stud", Side: "down", Section: name})
	m.show(rail, name, 20, 10)
	m.part(fuse, "fuse-maxi", "feed of zone "+fmt.Sprint(z), 60, 12, map[string]float64{"amp": 80, "break_amp": 5000})
	block := m.part(fmt.Sprintf("F%d", z), "fuse-block-regular", "fuse block "+fmt.Sprint(z), 20, 40, map[string]float64{"break_amp": 2000})
	block.Pins = []schematic.Pin{{Name: "in", Role: "feed", Side: "right"}}
	m.ground = fmt.Sprintf("GND%d", z)
	m.part(m.ground, "ground-body", "rear ground "+fmt.Sprint(z), 320, 225, nil)
	m.looms(z)
	plug := m.part(fmt.Sprintf("X%d", 2*z-1), "connector-plug", "", 150, 20, map[string]float64{"rated_amp": 20})
	other := m.part(fmt.Sprintf("X%d", 2*z), "connector-receptacle", "", 180, 20, map[string]float64{"rated_amp": 20})
	plug.Mate, other.Mate = other.ID, plug.ID
	m.wire("X901", pin, fuse, "1", "50mm2", "RD", 150)
	m.wire(fuse, "2", block.Name, "in", "16mm2", "RD", 600)
	for i := range circuitsASheet {
		if m.left < leastCircuit {
			return
		}
		m.circuit(i, block, plug, other)
	}
}

// looms makes the stretch from the fuse block to the connector and from there
// to the rear, with branches.
func (m *maker) looms(z int) {
	l := &schematic.Loom{ID: m.id(fmt.Sprint("loom ", z)), Name: fmt.Sprintf("Loom %d", z)}
	node := func(name string, x, y int) schematic.ID {
		id := m.id(fmt.Sprint("node ", z, name))
		l.Nodes = append(l.Nodes, schematic.Node{ID: id, Name: name, At: geom.Pt(x, y)})
		return id
	}
	segment := func(name string, from, to schematic.ID, mm, ambientC float64, sleeve string) schematic.ID {
		id := m.id(fmt.Sprint("segment ", z, name))
		l.Segments = append(l.Segments, schematic.Segment{ID: id, Name: name, From: from, To: to, LengthMM: schematic.Some(mm), AmbientC: schematic.Some(ambientC), Sleeve: sleeve})
		return id
	}
	block, joint, rear := node("fuse block", 0, 0), node("connector", 8000, 0), node("rear", 20000, 0)
	m.front = []schematic.ID{segment("front", block, joint, float64(500+100*m.rng.IntN(8)), 40, "corrugated tube"), segment("rear", joint, rear, float64(600+100*m.rng.IntN(12)), 30, "tape")}
	for i := range circuitsASheet {
		end := node(fmt.Sprintf("branch %d", i+1), 20000+1000*i, 2000)
		m.front = append(m.front, segment(fmt.Sprintf("branch %d", i+1), rear, end, float64(100+50*m.rng.IntN(10)), 30, ""))
	}
	m.loom = l
	m.put(l)
}

// circuit makes a fused circuit that a switch turns on by a relay.
func (m *maker) circuit(i int, block, plug, other *schematic.Part) {
	m.next++
	n, y := m.next, 40+24*i
	out, cavity := fmt.Sprint(i+1), fmt.Sprint(i+1)
	block.Pins = append(block.Pins, schematic.Pin{Name: out, Role: "output", Side: "right", Values: map[string]float64{"amp": 15}})
	plug.Pins = append(plug.Pins, schematic.Pin{Name: cavity, Role: "cavity", Side: "left"})
	other.Pins = append(other.Pins, schematic.Pin{Name: cavity, Role: "cavity", Side: "right"})
	relay, dash, colours := fmt.Sprintf("K%d", n), fmt.Sprintf("S%d", n), schematic.ColorCodes()
	colour := colours[n%10]
	m.part(relay, "relay-make", "", 60, y, map[string]float64{"rated_amp": 30})
	m.part(dash, "switch-toggle", "", 100, y, map[string]float64{"rated_amp": 10})
	m.splice = fmt.Sprintf("SP%d", n)
	m.part(m.splice, "splice", "", 220, y, nil)
	trunk, rear, branch := m.front[0], m.front[1], m.front[2+i]
	m.wire(block.Name, out, relay, "30", "2.5mm2", colour, 250)
	m.wire(block.Name, out, dash, "82", "1mm2", colour, 700)
	m.wire(dash, "82a", relay, "86", "1mm2", colour, 700)
	m.show(m.parts["GND901"], "", 60, 232)
	m.wire(relay, "85", "GND901", "1", "1mm2", "BN", 500)
	m.wire(relay, "87", plug.Name, cavity, "2.5mm2", colour, 50, trunk)
	m.wire(other.Name, cavity, m.splice, "1", "2.5mm2", colour, 50, rear)
	for i := range 1 + m.rng.IntN(4) {
		if m.left < 2 {
			return
		}
		m.load(240+20*i, y, colour, branch)
	}
}

// load hangs a load between the present splice and the present ground.
func (m *maker) load(x, y int, colour string, branch ...schematic.ID) {
	m.loads++
	name := fmt.Sprintf("E%d", m.loads)
	feed, back := "1", "2"
	switch m.rng.IntN(5) {
	case 0:
		m.part(name, "lamp", "", x, y, map[string]float64{"watt": m.share * []float64{5, 10, 21}[m.rng.IntN(3)]})
	case 1:
		m.part(name, "load-resistive", "", x, y, map[string]float64{"ohm": float64(8+m.rng.IntN(40)) / m.share})
	case 2:
		name = fmt.Sprintf("M%d", m.loads)
		feed, back = "33", "32"
		m.part(name, "motor", "", x, y, map[string]float64{"amp": m.share * (1 + m.rng.Float64()), "stall_amp": 8 * m.share})
	case 3:
		feed, back = "+", "-"
		m.part(name, "load-two-pin", "", x, y, map[string]float64{"amp": m.share * (0.2 + m.rng.Float64())})
	default:
		feed, back = "+", "-"
		m.part(name, "lamp-led", "", x, y, map[string]float64{"watt": m.share * float64(5+m.rng.IntN(15))})
	}
	m.wire(m.splice, "1", name, feed, "1.5mm2", colour, 150, branch...)
	m.wire(name, back, m.ground, "1", "1.5mm2", "BN", 400, branch...)
}

// rest uses up what is left: loads on the last circuit, and a ground strap for
// the odd wire.
func (m *maker) rest() {
	for x := 240; m.left >= 2 && m.splice != ""; x += 20 {
		m.load(x, 16, "GY", m.front[2])
	}
	if m.left > 0 {
		m.show(m.parts["GND901"], "", 60, 232)
		m.wire(m.ground, "1", "GND901", "1", "6mm2", "BN", 800)
	}
}

// states makes the usual ones; which circuits they switch on is drawn by lot.
func (m *maker) states() {
	for i, st := range []struct {
		name   string
		engine schematic.Engine
		share  int // circuits on, in ten
	}{{"Parked", schematic.EngineOff, 0}, {"Lights", schematic.EngineOff, 3}, {"Cranking", schematic.EngineCranking, 1}, {"Running", schematic.EngineRunning, 6}} {
		s := &schematic.State{ID: m.id("state " + st.name), Name: st.name, Order: i + 1, Engine: st.engine}
		for n := range m.next {
			if m.rng.IntN(10) < st.share {
				s.Set = append(s.Set, schematic.Setting{Part: m.parts[fmt.Sprintf("S%d", n+1)].ID, Position: "on"})
			}
		}
		m.put(s)
	}
}
