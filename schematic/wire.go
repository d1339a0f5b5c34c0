package schematic

import (
	"loomwright/calc/unit"
	"loomwright/schematic/geom"
)

// PinRef names a pin of a part.
type PinRef struct {
	Part ID     `json:"part"`
	Pin  string `json:"pin"`
}

// End is one end of a wire: at a pin, or loose at a place on the sheet when
// Part is the zero ID.
type End struct {
	Part ID     `json:"part,omitzero"`
	Pin  string `json:"pin,omitempty"`
	// View picks the symbol the end is drawn at when the part has several on
	// the sheet; empty means the first that shows the pin.
	View string     `json:"view,omitempty"`
	At   geom.Point `json:"at,omitzero"` // place of a loose end

	Terminal string `json:"terminal,omitempty"`
	Seal     string `json:"seal,omitempty"`
	JointOhm Num    `json:"joint_ohm,omitzero"` // crimp and contact, Ω; unknown: default by size
	Extra    Extra  `json:"-"`
}

// Loose reports whether the end is not at a pin.
func (e End) Loose() bool { return e.Part == ID{} }

// Ref returns the pin the end is at.
func (e End) Ref() PinRef { return PinRef{e.Part, e.Pin} }

// Wire is one insulated conductor between two ends. It is drawn on one sheet;
// circuits that cross sheets go through parts shown on both.
type Wire struct {
	ID    ID     `json:"id"`
	Name  string `json:"name"` // designation: W47
	Sheet ID     `json:"sheet"`
	A     End    `json:"a"`
	B     End    `json:"b"`
	// Via are the bends between the ends. Empty: drawn straight, or with
	// bends chosen from the way the pins face.
	Via []geom.Point `json:"via,omitempty"`
	// Tag is where the middle of its label stands, from the middle of the wire
	// as drawn. Zero: where there is room.
	Tag geom.Point `json:"tag,omitzero"`

	Metal      Metal     `json:"metal,omitempty"`
	Size       unit.Size `json:"size,omitzero"`
	Insulation string    `json:"insulation,omitempty"` // family: FLRY, TXL, …
	TempC      Num       `json:"temp_c,omitzero"`      // temperature class, overrides the family's
	Color      Color     `json:"color,omitzero"`

	LengthMM Num  `json:"length_mm,omitzero"` // measured; overrides the route
	SlackMM  Num  `json:"slack_mm,omitzero"`  // added to the route, both ends together
	Loom     ID   `json:"loom,omitzero"`
	Route    []ID `json:"route,omitempty"` // loom segments from A to B

	Twist   ID     `json:"twist,omitzero"`  // group
	Screen  ID     `json:"screen,omitzero"` // group
	Circuit string `json:"circuit,omitempty"`

	Build Build  `json:"build,omitempty"`
	Notes string `json:"notes,omitempty"`
	Links []Link `json:"links,omitempty"`
	// Locked holds the ends and bends as they are until it is unlocked; bends
	// still give way when a part at an end is moved.
	Locked bool  `json:"locked,omitempty"`
	Extra  Extra `json:"-"`
}

func (w *Wire) Key() Key { return Key{TypeWire, w.ID} }
func (*Wire) item()      {}

// Metal is the conductor metal. Empty means copper.
type Metal string

// The metals.
const (
	Copper    Metal = "copper"
	Tinned    Metal = "tinned copper"
	Aluminium Metal = "aluminium"
)

// GroupType says what binds the wires of a group.
type GroupType string

// The sorts of groups.
const (
	TwistGroup  GroupType = "twist"
	ScreenGroup GroupType = "screen"
)

// Group binds wires: a twisted pair, or the wires under one screen.
type Group struct {
	ID    ID        `json:"id"`
	Name  string    `json:"name"`
	Type  GroupType `json:"type"`
	Drain ID        `json:"drain,omitzero"` // the wire that grounds the screen
	Extra Extra     `json:"-"`
}

func (g *Group) Key() Key { return Key{TypeGroup, g.ID} }
func (*Group) item()      {}
