package check_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/google/uuid"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
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
//	limit ground_volt=0.2
//	drops 3 % and 10 % of nominal
//	unwarmed                            wires keep the temperature of the air
//	segment A 400 60 tube              loom segment, length, ambient, sleeve
//	label E1 left lamp
//	housing X1 rated=10 width=2.8 sealed=1 from=1.4 to=2.7
//	twin E1 lamp                        another thing called E1
//
// Wires are FLRY copper without joint resistance; options after the length:
// joints, aluminium, bare (no insulation said), parked, temp=90, on=A,B (route),
// colour=BU/RD, twist=pair, screen=S, drain=S (the drain wire of that screen).
type plan struct {
	t     testing.TB
	seed  string
	lib   *schematic.Library
	items []schematic.Item
	parts map[string]*schematic.Part
	loom  *schematic.Loom
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
	case f[0] == "choose":
		p.choose("bundle_factors", strings.Join(f[1:], " "))
	case f[0] == "drops":
		p.choose("drop_limits", strings.Join(f[1:], " "))
	case f[0] == "unwarmed":
		p.choose("wire_temperature", "air alone")
	case f[0] == "segment":
		p.segment(f[1:])
	case f[0] == "label":
		p.parts[f[1]].Label = strings.Join(f[2:], " ")
	case f[0] == "housing":
		v := p.values(f[2:])
		h := &schematic.Housing{}
		for _, key := range []string{"sealed", "plugged", "pins", "sockets"} { // 1 is yes
			switch is := v[key] == 1; {
			case is && key == "sealed":
				h.Sealed = true
			case is && key == "plugged":
				h.Plug = "plug"
			case is && key == "pins":
				h.Gender = "pin"
			case is:
				h.Gender = "socket"
			}
		}
		if a, ok := v["from"]; ok {
			h.SealMinMM = schematic.Some(a)
		}
		if a, ok := v["to"]; ok {
			h.SealMaxMM = schematic.Some(a)
		}
		if a, ok := v["rated"]; ok {
			h.RatedAmp = schematic.Some(a)
		}
		if w, ok := v["width"]; ok {
			h.ContactMM = schematic.Some(w)
		}
		if a, ok := v["from"]; ok {
			h.WireMinMM2 = schematic.Some(a)
		}
		if a, ok := v["to"]; ok {
			h.WireMaxMM2 = schematic.Some(a)
		}
		p.parts[f[1]].Housing = h
	case f[0] == "twin": // a thing of a name that is given already; "-" is none
		n := len(p.items)
		old := p.parts[f[1]]
		name := f[1]
		p.line(append([]string{fmt.Sprintf("twin%d", n)}, f[2:]...))
		if old != nil {
			p.parts[f[1]] = old
		}
		if name == "-" {
			name = ""
		}
		switch it := p.items[n].(type) {
		case *schematic.Part:
			it.Name = name
		case *schematic.Wire:
			it.Name = name
		}
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

func (p *plan) choose(name, option string) {
	if p.info.Choices == nil {
		p.info.Choices = map[string]string{}
	}
	p.info.Choices[name] = option
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
	w := &schematic.Wire{ID: p.id(f[0]), Name: f[0], A: p.end(f[1]), B: p.end(f[2]), Insulation: "FLRY"}
	if f[3] != "-" {
		size, err := unit.ParseSize(f[3])
		require.NoError(p.t, err)
		w.Size = size
	}
	if f[4] != "-" {
		w.LengthMM = p.num(f[4])
	}
	for _, opt := range f[5:] {
		p.option(w, opt)
	}
	p.items = append(p.items, w)
}

func (p *plan) option(w *schematic.Wire, opt string) {
	p.t.Helper()
	key, value, _ := strings.Cut(opt, "=")
	switch key {
	case "joints":
		w.A.JointOhm, w.B.JointOhm = schematic.Num{}, schematic.Num{}
	case "aluminium":
		w.Metal = schematic.Aluminium
	case "bare":
		w.Insulation = ""
	case "ins":
		w.Insulation = value
	case "parked":
		w.Build = schematic.Parked
	case "temp":
		w.TempC = p.num(value)
	case "colour":
		c, err := schematic.ParseColor(value)
		require.NoError(p.t, err)
		w.Color = c
	case "twist":
		w.Twist = p.group(schematic.TwistGroup, value).ID
	case "screen":
		w.Screen = p.group(schematic.ScreenGroup, value).ID
	case "drain":
		g := p.group(schematic.ScreenGroup, value)
		g.Drain, w.Screen = w.ID, g.ID
	case "on":
		w.Loom = p.loom.ID
		for name := range strings.SplitSeq(value, ",") {
			w.Route = append(w.Route, p.id("segment "+name))
		}
	default:
		w.Circuit = opt
	}
}

// group returns the group of a name, made when first named.
func (p *plan) group(of schematic.GroupType, name string) *schematic.Group {
	for _, it := range p.items {
		if g, ok := it.(*schematic.Group); ok && g.Name == name {
			return g
		}
	}
	g := &schematic.Group{ID: p.id("group " + name), Name: name, Type: of}
	p.items = append(p.items, g)
	return g
}

func (p *plan) segment(f []string) {
	p.t.Helper()
	if p.loom == nil {
		p.loom = &schematic.Loom{ID: p.id("loom"), Name: "loom"}
		p.items = append(p.items, p.loom)
	}
	s := schematic.Segment{ID: p.id("segment " + f[0]), Name: f[0], LengthMM: p.num(f[1])}
	if len(f) > 2 && f[2] != "-" {
		s.AmbientC = p.num(f[2])
	}
	if len(f) > 3 {
		s.Sleeve = f[3]
	}
	p.loom.Segments = append(p.loom.Segments, s)
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
