package schematic

import "loomwright/schematic/geom"

// Kind describes a sort of part as data: its pins, its symbol and what it is
// electrically. The drawing and the computation know parts through their kind
// alone, so a new kind needs no code.
type Kind struct {
	ID     ID     `json:"id,omitzero"`     // only for kinds defined in a harness file
	Name   string `json:"name"`            // unique: "relay-make"
	Title  string `json:"title"`           // "Relay, make contact"
	Group  string `json:"group"`           // heading in the tray: "Switching"
	Words  string `json:"words,omitempty"` // more words to find it by
	Prefix string `json:"prefix"`          // letters of the designation: "K"
	Help   string `json:"help,omitempty"`

	Params []Param `json:"params,omitempty"`
	Pins   []Pin   `json:"pins,omitempty"`
	// OwnPins says that each part brings its own pins, each with one of Roles;
	// Pins then holds the pins a new part starts with.
	OwnPins bool   `json:"own_pins,omitempty"`
	Roles   []Role `json:"roles,omitempty"`

	// Positions of a switch; the first is where it rests.
	Positions []string  `json:"positions,omitempty"`
	Elements  []Element `json:"elements,omitempty"`
	Sections  []Section `json:"sections"`

	// Duty is "continuous" or "intermittent" for coils and solenoids.
	Duty string `json:"duty,omitempty"`
	// Family is the fuse family (see calc/tables), where the kind is a fuse.
	Family string `json:"family,omitempty"`
	// Passes marks kinds that only carry current on: splice, stud, connector,
	// ground point, fuse, contact. A trace runs through them, a load ends it.
	Passes bool `json:"passes,omitempty"`
	// Ground marks ground studs: "body", "engine" or "frame".
	Ground string `json:"ground,omitempty"`
	// OtherHalf is the kind placed together with this one and mated to it.
	OtherHalf string `json:"other_half,omitempty"`
	Extra     Extra  `json:"-"`
}

func (k *Kind) Key() Key { return Key{TypeKind, k.ID} }
func (*Kind) item()      {}

// Param is a value a part may override, in an SI unit.
type Param struct {
	Name    string `json:"name"`
	Title   string `json:"title"`
	Unit    string `json:"unit"`             // V A ohm W mm mm2 degC Ah ratio count A2s
	Default Num    `json:"default,omitzero"` // unknown: the user must say
	Source  string `json:"source,omitempty"` // where the default comes from; without one what stands in, "by family"
	// SystemVolt is the voltage of the systems the default is meant for, V; 0
	// where it does not depend on that.
	SystemVolt float64 `json:"system_volt,omitzero"`
	Extra      Extra   `json:"-"`
}

// Pin is a place where wires end.
type Pin struct {
	Name  string `json:"name"`            // "30", "87a", "A12"
	Title string `json:"title,omitempty"` // "injector 1"
	Role  string `json:"role,omitempty"`  // own pins: a role of the kind

	// Section is the section of the symbol that shows the pin.
	Section string `json:"section,omitempty"`
	// At and Dir place a fixed pin in the symbol: right, down, left or up is
	// the way a wire leaves it.
	At  geom.Point `json:"at,omitzero"`
	Dir Dir        `json:"dir,omitempty"`
	// Side places an own pin: the box lines pins up along its sides.
	Side Dir `json:"side,omitempty"`

	// Values override the role's parameters for this pin.
	Values map[string]float64 `json:"values,omitempty"`
	Extra  Extra              `json:"-"`
}

// Dir is a direction in words, as files write it: right, down, left, up.
type Dir string

// Geom returns the direction for geometry.
func (d Dir) Geom() geom.Dir {
	switch d {
	case "right":
		return geom.Right
	case "down":
		return geom.Down
	case "left":
		return geom.Left
	case "up":
		return geom.Up
	}
	return geom.NoDir
}

// Role is what an own pin can be: supply, ground, low-side output, cavity …
type Role struct {
	Name     string    `json:"name"`
	Title    string    `json:"title"`
	Params   []Param   `json:"params,omitempty"`
	Elements []Element `json:"elements,omitempty"` // "@" stands for the pin
	Shapes   []Shape   `json:"shapes,omitempty"`   // drawn at the pin, as if it faced left
	// Signal names what the pin is for rules: power, ground, sensor-ground,
	// sensor-supply, output, input, bus-high, bus-low, screen, pull-up (an
	// output that only gives a signal against a pull-up), pair (one of two wires
	// that lie twisted or screened together).
	Signal string `json:"signal,omitempty"`
	Extra  Extra  `json:"-"`
}

// ElementType is one of the closed set of electrical elements.
type ElementType string

// The element types with their arguments (Ω, V, A, W). Every element lies
// between A and B; sources have their positive pole at A; diodes point from A
// to B.
const (
	ElemResistor   ElementType = "resistor"         // ohm
	ElemJoint      ElementType = "joint"            // ohm: a contact, crimp or stud in the current path
	ElemBattery    ElementType = "battery"          // volt, ohm; or charge, cold_crank_amp, temp_degc
	ElemAlternator ElementType = "alternator"       // volt, ohm, limit_amp; idle_limit_amp, hot_limit_amp, hot_degc, temp_degc; works while the engine turns
	ElemContact    ElementType = "contact"          // ohm; see Coil, Break, In
	ElemCoil       ElementType = "coil"             // ohm, pull_in_volt, drop_out_volt
	ElemDiode      ElementType = "diode"            // volt, ohm
	ElemCurrent    ElementType = "constant-current" // amp, min_volt; start_a2s
	ElemPower      ElementType = "constant-power"   // watt, min_volt; start_a2s
	ElemLamp       ElementType = "lamp"             // volt, watt; cold_ohm
	ElemMotor      ElementType = "motor"            // volt, amp, stall_amp
	ElemFuse       ElementType = "fuse"             // amp, ohm; break_amp, melt_a2s
	ElemOutput     ElementType = "output"           // ohm, limit_amp: closed when the state says on
	ElemRegulator  ElementType = "regulator"        // volt, ohm, limit_amp, min_volt; fed from Feed
	ElemOpen       ElementType = "open"             // no current; keeps two pins in one function (input, sense)
)

// ElementTypes lists the closed set.
func ElementTypes() []ElementType {
	return []ElementType{ElemResistor, ElemJoint, ElemBattery, ElemAlternator, ElemContact, ElemCoil, ElemDiode,
		ElemCurrent, ElemPower, ElemLamp, ElemMotor, ElemFuse, ElemOutput, ElemRegulator, ElemOpen}
}

// Element is a two-terminal piece between two pins, or between a pin and an
// inner node whose name starts with "#".
type Element struct {
	Name string         `json:"name"`
	Type ElementType    `json:"type"`
	A    string         `json:"a"`
	B    string         `json:"b"`
	Args map[string]Arg `json:"args,omitempty"`

	Coil  string   `json:"coil,omitempty"`  // contact: the coil element that moves it
	Break bool     `json:"break,omitempty"` // contact: closed while the coil is at rest
	In    []string `json:"in,omitempty"`    // contact: switch positions in which it is closed
	Feed  string   `json:"feed,omitempty"`  // regulator: node that feeds it
	// Load is the kind of load for limits: lamp, motor, heater, solenoid,
	// coil, sensor, electronics, indicator, starter, charging.
	Load string `json:"load,omitempty"`
	// When restricts the element to engine states; empty is always.
	When  []Engine `json:"when,omitempty"`
	Extra Extra    `json:"-"`
}

// Arg is a number, or the name of a parameter of the kind (or role).
type Arg struct {
	Value float64
	Param string
}

// Section is one symbol of a kind. Most kinds have a single, unnamed one.
type Section struct {
	Name  string `json:"name,omitempty"`
	Title string `json:"title,omitempty"`
	// Form is how own pins are laid out: "box" (pins along the sides), "rows"
	// (numbered cavities), "bar" (pins along a rail); empty draws Shapes only.
	Form     string     `json:"form,omitempty"`
	MinWidth int        `json:"min_width,omitempty"` // 0.1 mm
	Shapes   []Shape    `json:"shapes,omitempty"`
	Tag      geom.Point `json:"tag,omitzero"` // baseline start of the designation
	// TagSide says where the designation stands: "above" (default), "right".
	TagSide string `json:"tag_side,omitempty"`
	Extra   Extra  `json:"-"`
}

// Shape is one stroke, fill or text of a symbol, in units about its origin.
type Shape struct {
	Type   string       `json:"type"`             // line polygon rect circle arc text
	Points []geom.Point `json:"points,omitempty"` // rect: two corners; circle, arc: centre; text: middle of the text
	Radius int          `json:"radius,omitempty"`
	Start  float64      `json:"start,omitempty"` // arc: degrees clockwise from right
	Sweep  float64      `json:"sweep,omitempty"` // arc: degrees clockwise
	Text   string       `json:"text,omitempty"`
	Size   int          `json:"size,omitempty"`   // text height
	Fill   string       `json:"fill,omitempty"`   // "", "solid", "body" or "paper"
	Weight string       `json:"weight,omitempty"` // "", "thin" or "bold"
	Dashed bool         `json:"dashed,omitempty"`
	Extra  Extra        `json:"-"`
}

// Section returns the named section.
func (k *Kind) Section(name string) (Section, bool) {
	for _, s := range k.Sections {
		if s.Name == name {
			return s, true
		}
	}
	// A kind with own pins may be split into as many boxes as its parts like.
	if k.OwnPins && len(k.Sections) > 0 {
		return k.Sections[0], true
	}
	return Section{}, false
}

// Role returns the named role.
func (k *Kind) Role(name string) (Role, bool) {
	for _, r := range k.Roles {
		if r.Name == name {
			return r, true
		}
	}
	return Role{}, false
}

// Param returns the named parameter.
func (k *Kind) Param(name string) (Param, bool) { return findParam(k.Params, name) }

// Param returns the named parameter.
func (r Role) Param(name string) (Param, bool) { return findParam(r.Params, name) }

func findParam(ps []Param, name string) (Param, bool) {
	for _, p := range ps {
		if p.Name == name {
			return p, true
		}
	}
	return Param{}, false
}
