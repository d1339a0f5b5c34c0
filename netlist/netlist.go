// Package netlist turns a document into an electrical network (nodes, nets and
// branches), finds the currents in each operating state and follows a circuit
// from source to ground.
//
// Start with [Build]; [Netlist.Solve] answers one operating state and
// [Solution.Trace] one circuit.
package netlist

import "loomwright/schematic"

// Node is one electrical point: a pin, an inner node of a part, or the sheet
// metal that ground studs of one name share.
type Node struct {
	Pin   schematic.PinRef // zero for inner nodes and metal
	Part  *schematic.Part  // nil for metal
	Name  string           // "F3.1", "K2#supply", "body metal"
	Inner bool
	// Ground is the name of the sheet metal the node stands for ("body"), else empty.
	Ground string
	Net    int // index into Nets
}

// Net is a set of nodes joined by wires, splices, contacts of plugged
// connectors and ground metal: one potential, but for the drops along it.
type Net struct {
	Name  string // the circuit name of its wires, else its first pin
	Nodes []int
	Wires []*schematic.Wire
}

// Role says what a branch is.
type Role uint8

// The roles.
const (
	RoleWire Role = iota
	RoleMate      // contact pair of a plugged connector
	RoleElement
)

// Branch is a two-terminal piece between nodes A and B.
type Branch struct {
	Role    Role
	A, B    int
	Wire    *schematic.Wire // RoleWire
	Part    *schematic.Part // RoleElement, RoleMate
	Kind    *schematic.Kind
	Pin     *schematic.Pin // own pin the element belongs to, or nil
	Element schematic.Element
	Feed    int // node that feeds a regulator, else -1

	// Ohm is the resistance of wires, mates, joints, resistors, coils, contacts
	// (closed) and fuses in Ω at the temperature assumed. OhmKnown is false
	// when something needed is not given; Missing then says what.
	Ohm       float64
	OhmKnown  bool
	Missing   []string
	Conductor Conductor // RoleWire: how Ohm came about
}

// Name returns the words by which messages call the branch: "W12", "F3",
// "K2 coil", "M4 pin 7".
func (b *Branch) Name() string {
	switch {
	case b.Role == RoleWire:
		return b.Wire.Name
	case b.Role == RoleMate:
		return b.Part.Name + " cavity " + b.Pin.Name
	case b.Pin != nil:
		return b.Part.Name + " pin " + b.Pin.Name
	case b.Element.Name != "" && len(b.Kind.Elements) > 1:
		return b.Part.Name + " " + b.Element.Name
	}
	return b.Part.Name
}

// Key returns the document item the branch belongs to.
func (b *Branch) Key() schematic.Key {
	if b.Role == RoleWire {
		return b.Wire.Key()
	}
	return b.Part.Key()
}

// Value returns an argument of the branch's element, unknown when nobody gave it.
func (b *Branch) Value(arg string) schematic.Num {
	return b.Kind.Value(b.Part, b.Pin, b.Element, arg)
}

// Netlist is the network of a document. It never changes and may be shared.
type Netlist struct {
	Doc      *schematic.Doc
	Nodes    []Node
	Branches []Branch
	Nets     []Net
	// Unknown lists parts whose kind nobody defines; they take part in nothing.
	Unknown []*schematic.Part
	// Reference is the node of battery negative, -1 when there is no source.
	Reference int

	pins  map[schematic.PinRef]int
	wires map[schematic.ID]int   // wire → branch
	parts map[schematic.ID][]int // part → branches
	at    [][]int                // node → branches
}

// NodeOf returns the node of a pin, or -1.
func (n *Netlist) NodeOf(r schematic.PinRef) int {
	if i, ok := n.pins[r]; ok {
		return i
	}
	return -1
}

// WireBranch returns the branch index of a wire, or -1.
func (n *Netlist) WireBranch(id schematic.ID) int {
	if i, ok := n.wires[id]; ok {
		return i
	}
	return -1
}

// PartBranches returns the branches of a part's elements.
func (n *Netlist) PartBranches(id schematic.ID) []int { return n.parts[id] }

// At returns the branches that end at a node.
func (n *Netlist) At(node int) []int { return n.at[node] }

// Other returns the far end of a branch seen from node.
func (b *Branch) Other(node int) int {
	if b.A == node {
		return b.B
	}
	return b.A
}

// IsSource reports whether the branch can drive current.
func (b *Branch) IsSource() bool {
	if b.Role != RoleElement {
		return false
	}
	switch b.Element.Type {
	case schematic.ElemBattery, schematic.ElemAlternator:
		return true
	}
	return false
}

// IsLoad reports whether the branch is there to use current.
func (b *Branch) IsLoad() bool {
	if b.Role != RoleElement {
		return false
	}
	switch b.Element.Type {
	case schematic.ElemLamp, schematic.ElemMotor, schematic.ElemCoil, schematic.ElemCurrent, schematic.ElemPower:
		return true
	case schematic.ElemResistor:
		return b.Element.Load != ""
	}
	return false
}
