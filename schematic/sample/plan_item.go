package sample

import (
	"fmt"
	"strings"

	"loomwright/calc/unit"
	"loomwright/schematic"
)

// end reads an end of a wire.
func (p *Plan) end(s string) schematic.End {
	if s == "loose" {
		return schematic.End{JointOhm: schematic.Some(0)}
	}
	part, pin, _ := strings.Cut(s, ".")
	return schematic.End{Part: p.part(part).ID, Pin: pin, JointOhm: schematic.Some(0)}
}

func (p *Plan) wire(f []string) {
	w := &schematic.Wire{ID: p.ID(f[0]), Name: f[0], A: p.end(f[1]), B: p.end(f[2]), Insulation: p.Insulation}
	if f[3] != "-" {
		size, err := unit.ParseSize(f[3])
		if err != nil {
			p.fail("%w", err)
		}
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

func (p *Plan) option(w *schematic.Wire, opt string) {
	key, value, _ := strings.Cut(opt, "=")
	switch key {
	case "joints":
		w.A.JointOhm, w.B.JointOhm = schematic.Num{}, schematic.Num{}
	case "aluminium":
		w.Metal = schematic.Aluminium
	case "tinned":
		w.Metal = schematic.Tinned
	case "flry":
		w.Insulation = "FLRY"
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
		if err != nil {
			p.fail("%w", err)
		}
		w.Color = c
	case "twist":
		w.Twist = p.group(schematic.TwistGroup, value).ID
	case "screen":
		w.Screen = p.group(schematic.ScreenGroup, value).ID
	case "drain":
		g := p.group(schematic.ScreenGroup, value)
		g.Drain, w.Screen = w.ID, g.ID
	case "on":
		if p.loom == nil {
			p.fail("there is no segment before it")
			return
		}
		w.Loom = p.loom.ID
		for name := range strings.SplitSeq(value, ",") {
			w.Route = append(w.Route, p.ID("segment "+name))
		}
	default:
		w.Circuit = opt
	}
}

// group returns the group of a name, made when first named.
func (p *Plan) group(of schematic.GroupType, name string) *schematic.Group {
	for _, it := range p.items {
		if g, ok := it.(*schematic.Group); ok && g.Name == name {
			return g
		}
	}
	g := &schematic.Group{ID: p.ID("group " + name), Name: name, Type: of}
	p.items = append(p.items, g)
	return g
}

func (p *Plan) segment(f []string) {
	if p.loom == nil {
		p.loom = &schematic.Loom{ID: p.ID("loom"), Name: "loom"}
		p.items = append(p.items, p.loom)
	}
	s := schematic.Segment{ID: p.ID("segment " + f[0]), Name: f[0], LengthMM: p.num(f[1])}
	if len(f) > 2 && f[2] != "-" {
		s.AmbientC = p.num(f[2])
	}
	if len(f) > 3 {
		s.Sleeve = f[3]
	}
	p.loom.Segments = append(p.loom.Segments, s)
}

// housing reads what a housing says; 1 is yes.
func (p *Plan) housing(f []string) *schematic.Housing {
	v := p.values(f)
	h := &schematic.Housing{Sealed: v["sealed"] == 1}
	if v["plugged"] == 1 {
		h.Plug = "plug"
	}
	switch {
	case v["sockets"] == 1:
		h.Gender = "socket"
	case v["pins"] == 1:
		h.Gender = "pin"
	}
	take := func(name string, to ...*schematic.Num) {
		if a, ok := v[name]; ok {
			for _, n := range to {
				*n = schematic.Some(a)
			}
		}
	}
	take("rated", &h.RatedAmp)
	take("width", &h.ContactMM)
	take("from", &h.SealMinMM, &h.WireMinMM2)
	take("to", &h.SealMaxMM, &h.WireMaxMM2)
	return h
}

// twin adds a thing of a name that is given already, or of none.
func (p *Plan) twin(name string, f []string) {
	n, old := len(p.items), p.parts[name]
	p.line(append([]string{fmt.Sprintf("twin%d", n)}, f...))
	if old != nil {
		p.parts[name] = old
	}
	if name == "-" {
		name = ""
	}
	if p.err != nil {
		return
	}
	switch it := p.items[n].(type) {
	case *schematic.Part:
		it.Name = name
	case *schematic.Wire:
		it.Name = name
	}
}

func (p *Plan) state(f []string) {
	st := &schematic.State{ID: p.ID("state " + f[0]), Name: f[0], Order: len(p.items), Engine: schematic.Engine(f[1])}
	for _, s := range f[2:] {
		var set schematic.Setting
		who, pos, ok := strings.Cut(s, "=")
		if !ok {
			var duty string
			if who, duty, ok = strings.Cut(s, "*"); !ok {
				p.fail("%q is no setting: write S1=on or M1*0.5", s)
				return
			}
			set.Duty = p.num(duty)
		}
		set.Position = pos
		who, set.Item, _ = strings.Cut(who, ":")
		set.Part = p.ID(who)
		if part := p.parts[who]; part != nil {
			set.Part = part.ID
		}
		st.Set = append(st.Set, set)
	}
	p.items = append(p.items, st)
}
