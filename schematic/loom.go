package schematic

import "loomwright/schematic/geom"

// Loom is one sub-harness: a tree of segments between breakout nodes that
// wires are routed along.
type Loom struct {
	ID       ID        `json:"id"`
	Name     string    `json:"name"`
	Nodes    []Node    `json:"nodes,omitempty"`
	Segments []Segment `json:"segments,omitempty"`
	Notes    string    `json:"notes,omitempty"`
	Links    []Link    `json:"links,omitempty"`
	Extra    Extra     `json:"-"`
}

func (l *Loom) Key() Key { return Key{TypeLoom, l.ID} }
func (*Loom) item()      {}

// Node is a place where the loom branches or ends.
type Node struct {
	ID    ID         `json:"id"`
	Name  string     `json:"name"`
	At    geom.Point `json:"at,omitzero"` // place on the form board, 0.1 mm
	Extra Extra      `json:"-"`
}

// Segment is the stretch between two nodes.
type Segment struct {
	ID       ID     `json:"id"`
	Name     string `json:"name,omitempty"`
	From     ID     `json:"from"`
	To       ID     `json:"to"`
	LengthMM Num    `json:"length_mm,omitzero"`
	AmbientC Num    `json:"ambient_c,omitzero"`
	Sleeve   string `json:"sleeve,omitempty"` // what covers it: corrugated tube, tape, …
	Holes    []Hole `json:"holes,omitempty"`
	Extra    Extra  `json:"-"`
}

// Hole is a panel the segment passes through.
type Hole struct {
	Name       string `json:"name"`
	DiameterMM Num    `json:"diameter_mm,omitzero"`
	Grommet    string `json:"grommet,omitempty"`
	FromMM     Num    `json:"from_mm,omitzero"` // distance from the segment's From node
	Extra      Extra  `json:"-"`
}

// Segment returns the segment with the given ID.
func (l *Loom) Segment(id ID) (Segment, bool) {
	for _, s := range l.Segments {
		if s.ID == id {
			return s, true
		}
	}
	return Segment{}, false
}

// NodeName returns the name of the node with the given ID, "" for none.
func (l *Loom) NodeName(id ID) string {
	for _, n := range l.Nodes {
		if n.ID == id {
			return n.Name
		}
	}
	return ""
}
