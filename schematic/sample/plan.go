package sample

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/google/uuid"

	"loomwright/schematic"
)

// Plan reads documents from lines that a reader takes in at a glance:
//
//	G1 battery volt=12 ohm=0.005        part, kind, values
//	A1.1 supply joint_ohm=0.01          own pin of a part, role, values
//	W1 G1.+ F1.1 2.5mm2 500             wire, ends, size, length in mm; "-" is unknown, "loose" an end at nothing
//	X1 = X2                             two plugged halves
//	state on running S1=on A1:14=on M1*0.5
//	volts 24
//	ambient 60
//	limit ground_volt=0.2
//	drops 3 % and 10 % of nominal       choice of the limits of drops; choose: of the bundle factors
//	unwarmed                            wires keep the temperature of the air
//	segment A 400 60 tube               loom segment, length, ambient, sleeve
//	label E1 left lamp
//	housing X1 rated=10 width=2.8 sealed=1 from=1.4 to=2.7
//	twin E1 lamp                        another thing called E1; "-" is a thing without a name
//
// Wires have copper and no joint resistance; options after the length: joints,
// aluminium, tinned, flry (insulation for 105 °C), bare (no insulation said),
// ins=TXL, parked, temp=90, on=A,B (route), colour=BU/RD, twist=pair, screen=S,
// drain=S (the drain wire of that screen); any other word is a circuit.
//
// Begin with [NewPlan]. The zero values of Seed and Insulation are good ones.
type Plan struct {
	Seed       string // makes other IDs of the same names
	Insulation string // of wires that say nothing

	lib   *schematic.Library
	items []schematic.Item
	parts map[string]*schematic.Part
	loom  *schematic.Loom
	info  schematic.Info
	err   error // the first mistake
}

// NewPlan returns an empty plan with the part kinds of a library.
func NewPlan(lib *schematic.Library) *Plan {
	return &Plan{lib: lib, parts: map[string]*schematic.Part{}}
}

// ID returns the ID of the thing of a name.
func (p *Plan) ID(name string) schematic.ID { return uuid.NewSHA1(uuid.Nil, []byte(p.Seed+name)) }

// Items returns what was read so far, in the order of the lines.
func (p *Plan) Items() []schematic.Item { return p.items }

// Read takes lines in and returns the document of all lines so far. An error
// names the first line that cannot be read.
func (p *Plan) Read(text string) (*schematic.Doc, error) {
	for line := range strings.Lines(text) {
		if f := strings.Fields(line); len(f) > 0 && p.err == nil {
			p.line(f)
			if p.err != nil {
				p.err = fmt.Errorf("plan line %q: %w", strings.TrimSpace(line), p.err)
			}
		}
	}
	return p.Build(p.items...), p.err
}

// Build returns a document with the settings read and the given items.
func (p *Plan) Build(items ...schematic.Item) *schematic.Doc {
	info := p.info
	puts := []schematic.Put{{Key: info.Key(), Item: &info}}
	for _, it := range items {
		puts = append(puts, schematic.Put{Key: it.Key(), Item: it})
	}
	return schematic.New(p.lib).With(puts...)
}

// fail keeps the first mistake.
func (p *Plan) fail(format string, args ...any) {
	if p.err == nil {
		p.err = fmt.Errorf(format, args...)
	}
}

// part returns a part by its name.
func (p *Plan) part(name string) *schematic.Part {
	if part := p.parts[name]; part != nil {
		return part
	}
	p.fail("there is no part %s before it", name)
	return &schematic.Part{}
}

func (p *Plan) num(s string) schematic.Num {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		p.fail("%w", err)
	}
	return schematic.Some(v)
}

func (p *Plan) values(f []string) map[string]float64 {
	m := map[string]float64{}
	for _, kv := range f {
		k, v, ok := strings.Cut(kv, "=")
		if !ok {
			p.fail("%q is no value: write name=number", kv)
			return m
		}
		m[k] = p.num(v).Or(0)
	}
	return m
}

// least is how many words lines need that begin with a word of their own.
var least = map[string]int{"unwarmed": 1, "segment": 3, "twin": 3, "state": 3}

func (p *Plan) line(f []string) {
	need, ok := least[f[0]]
	if !ok {
		need = 2
	}
	if len(f) < need {
		p.fail("it needs %d words", need)
		return
	}
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
		p.part(f[1]).Label = strings.Join(f[2:], " ")
	case f[0] == "housing":
		p.part(f[1]).Housing = p.housing(f[2:])
	case f[0] == "twin":
		p.twin(f[1], f[2:])
	case f[0] == "state":
		p.state(f[1:])
	case f[1] == "=" && len(f) == 3:
		a, b := p.part(f[0]), p.part(f[2])
		a.Mate, b.Mate = b.ID, a.ID
	case strings.Contains(f[0], "."):
		name, pin, _ := strings.Cut(f[0], ".")
		part := p.part(name)
		part.Pins = append(part.Pins, schematic.Pin{Name: pin, Role: f[1], Values: p.values(f[2:])})
	case len(f) >= 5 && (strings.Contains(f[1], ".") || f[1] == "loose"):
		p.wire(f)
	default:
		part := &schematic.Part{ID: p.ID(f[0]), Name: f[0], Kind: f[1], Values: p.values(f[2:])}
		p.parts[f[0]] = part
		p.items = append(p.items, part)
	}
}

func (p *Plan) choose(name, option string) {
	if p.info.Choices == nil {
		p.info.Choices = map[string]string{}
	}
	p.info.Choices[name] = option
}
