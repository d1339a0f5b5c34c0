package netlist_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/google/uuid"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
)

// plan builds a document from lines a reader takes in at a glance:
//
//	G1 battery volt=12 ohm=0.005        part, kind, values
//	A1.1 supply joint_ohm=0.01          own pin of a part, role, values
//	W1 G1.+ F1.1 2.5mm2 500             wire, ends, size, length in mm; "-" is unknown, "loose" an end at nothing
//	X1 = X2                             two plugged halves
//	state on running S1=on A1:14=on M1*0.5
//	volts 24
//	ambient 60
//
// Wire ends have no joint resistance unless the line ends in "joints"; "flry"
// is an insulation for 105 °C, "aluminium" and "tinned" are metals, any other
// word a circuit.
type plan struct {
	t     testing.TB
	seed  string
	lib   *schematic.Library
	items []schematic.Item
	parts map[string]*schematic.Part
	info  schematic.Info
}

func newPlan(t testing.TB, seed string, more ...*schematic.Kind) *plan {
	t.Helper()
	lib, err := catalog.Default()
	require.NoError(t, err)
	var kinds []*schematic.Kind
	for _, name := range lib.Names() {
		kinds = append(kinds, lib.Kind(name))
	}
	return &plan{t: t, seed: seed, lib: schematic.NewLibrary(append(kinds, more...)...), parts: map[string]*schematic.Part{}}
}

// doc reads the lines of a plan into a document.
func doc(t testing.TB, text string, more ...*schematic.Kind) *schematic.Doc {
	t.Helper()
	return newPlan(t, "", more...).read(text)
}

func (p *plan) id(name string) schematic.ID {
	return uuid.NewSHA1(uuid.Nil, []byte(p.seed+name))
}

func (p *plan) read(text string) *schematic.Doc {
	p.t.Helper()
	for line := range strings.Lines(text) {
		if f := strings.Fields(line); len(f) > 0 {
			p.line(f)
		}
	}
	return p.build(p.items)
}

func (p *plan) build(items []schematic.Item) *schematic.Doc {
	info := p.info
	puts := []schematic.Put{{Key: info.Key(), Item: &info}}
	for _, it := range items {
		puts = append(puts, schematic.Put{Key: it.Key(), Item: it})
	}
	return schematic.New(p.lib).With(puts...)
}

func (p *plan) line(f []string) {
	p.t.Helper()
	switch {
	case f[0] == "volts":
		p.info.SystemVolt = p.num(f[1])
	case f[0] == "ambient":
		p.info.AmbientC = p.num(f[1])
	case f[0] == "limit":
		p.info.Limits = p.values(f[1:])
	case f[0] == "state":
		p.state(f[1:])
	case f[1] == "=":
		p.parts[f[0]].Mate, p.parts[f[2]].Mate = p.parts[f[2]].ID, p.parts[f[0]].ID
	case strings.Contains(f[0], "."):
		name, pin, _ := strings.Cut(f[0], ".")
		part := p.parts[name]
		part.Pins = append(part.Pins, schematic.Pin{Name: pin, Role: f[1], Values: p.values(f[2:])})
	case len(f) >= 5:
		if strings.Contains(f[1], ".") || f[1] == "loose" {
			p.wire(f)
			return
		}
		fallthrough
	default:
		part := &schematic.Part{ID: p.id(f[0]), Name: f[0], Kind: f[1], Values: p.values(f[2:])}
		p.parts[f[0]] = part
		p.items = append(p.items, part)
	}
}

func (p *plan) num(s string) schematic.Num {
	p.t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(p.t, err)
	return schematic.Some(v)
}

func (p *plan) values(f []string) map[string]float64 {
	p.t.Helper()
	m := map[string]float64{}
	for _, kv := range f {
		k, v, ok := strings.Cut(kv, "=")
		require.True(p.t, ok, kv)
		m[k] = p.num(v).Or(0)
	}
	return m
}

func (p *plan) end(s string) schematic.End {
	p.t.Helper()
	if s == "loose" {
		return schematic.End{JointOhm: schematic.Some(0)}
	}
	part, pin, _ := strings.Cut(s, ".")
	require.Contains(p.t, p.parts, part, s)
	return schematic.End{Part: p.parts[part].ID, Pin: pin, JointOhm: schematic.Some(0)}
}

func (p *plan) wire(f []string) {
	p.t.Helper()
	w := &schematic.Wire{ID: p.id(f[0]), Name: f[0], A: p.end(f[1]), B: p.end(f[2])}
	if f[3] != "-" {
		size, err := unit.ParseSize(f[3])
		require.NoError(p.t, err)
		w.Size = size
	}
	if f[4] != "-" {
		w.LengthMM = p.num(f[4])
	}
	for _, opt := range f[5:] {
		switch opt {
		case "joints":
			w.A.JointOhm, w.B.JointOhm = schematic.Num{}, schematic.Num{}
		case "aluminium":
			w.Metal = schematic.Aluminium
		case "tinned":
			w.Metal = schematic.Tinned
		case "flry":
			w.Insulation = "FLRY"
		default:
			w.Circuit = opt
		}
	}
	p.items = append(p.items, w)
}

func (p *plan) state(f []string) {
	p.t.Helper()
	st := &schematic.State{ID: p.id("state " + f[0]), Name: f[0], Order: len(p.items), Engine: schematic.Engine(f[1])}
	for _, s := range f[2:] {
		var set schematic.Setting
		who, pos, ok := strings.Cut(s, "=")
		if !ok {
			var duty string
			who, duty, ok = strings.Cut(s, "*")
			require.True(p.t, ok, s)
			set.Duty = p.num(duty)
		}
		set.Position = pos
		who, set.Item, _ = strings.Cut(who, ":")
		if part := p.parts[who]; part != nil {
			set.Part = part.ID
		} else {
			set.Part = p.id(who)
		}
		st.Set = append(st.Set, set)
	}
	p.items = append(p.items, st)
}

// sheetOf answers questions about a solved document by the names in its plan.
type sheet struct {
	t testing.TB
	*netlist.Solution
}

// solve computes the first state of a document, or the state at rest.
func solve(t testing.TB, d *schematic.Doc) sheet {
	t.Helper()
	sols := netlist.Build(d).SolveAll()
	for _, s := range sols {
		closes(t, s)
	}
	return sheet{t, sols[0]}
}

func (s sheet) ref(pin string) schematic.PinRef {
	s.t.Helper()
	part, name, _ := strings.Cut(pin, ".")
	key, ok := s.Netlist.Doc.Named(part)
	require.True(s.t, ok, part)
	return schematic.PinRef{Part: key.ID, Pin: name}
}

func (s sheet) volt(pin string) float64 {
	s.t.Helper()
	v, ok := s.VoltAt(s.Netlist.NodeOf(s.ref(pin)))
	require.True(s.t, ok, "%s has no voltage", pin)
	return v
}

func (s sheet) wire(name string) float64 {
	s.t.Helper()
	key, ok := s.Netlist.Doc.Named(name)
	require.True(s.t, ok, name)
	a, ok := s.WireAmp(key.ID)
	require.True(s.t, ok, name)
	return a
}

// branch returns the index of a branch by the name messages give it.
func (s sheet) branch(name string) int {
	s.t.Helper()
	for i := range s.Netlist.Branches {
		if s.Netlist.Branches[i].Name() == name {
			return i
		}
	}
	require.Fail(s.t, "no branch "+name)
	return -1
}

func (s sheet) amp(name string) float64 { s.t.Helper(); return s.Amp[s.branch(name)] }

// steps writes a traced way as names, open ones in brackets.
func (s sheet) steps(way []netlist.Step) string {
	var names []string
	for _, st := range way {
		name := s.Netlist.Branches[st.Branch].Name()
		if st.Open {
			name = "[" + name + "]"
		}
		names = append(names, name)
	}
	return strings.Join(names, " ")
}

func (s sheet) names(branches []int) string {
	var names []string
	for _, i := range branches {
		names = append(names, s.Netlist.Branches[i].Name())
	}
	return fmt.Sprint(names)
}
