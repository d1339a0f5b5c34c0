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

// Engine is what the engine does in an operating state.
type Engine string

const (
	EngineOff      Engine = "off"
	EngineCranking Engine = "cranking"
	EngineIdle     Engine = "idle"
	EngineRunning  Engine = "running"
)

// Engines lists the closed set.
func Engines() []Engine { return []Engine{EngineOff, EngineCranking, EngineIdle, EngineRunning} }

// State is a named operating state: what is switched on while the currents are
// computed. Everything not named stands at its default.
type State struct {
	ID     ID        `json:"id"`
	Name   string    `json:"name"`
	Order  int       `json:"order"`
	Engine Engine    `json:"engine,omitempty"` // empty means off
	Set    []Setting `json:"set,omitempty"`
	Notes  string    `json:"notes,omitempty"`
	Extra  Extra     `json:"-"`
}

func (s *State) Key() Key { return Key{TypeState, s.ID} }
func (*State) item()      {}

// Setting puts one part (or one element or own pin of it) into a position.
type Setting struct {
	Part     ID     `json:"part"`
	Item     string `json:"item,omitempty"`     // element or own pin; empty: the whole part
	Position string `json:"position,omitempty"` // switch position; "on" or "off" for outputs
	Duty     Num    `json:"duty,omitzero"`      // 0..1, share of time a load draws
	Extra    Extra  `json:"-"`
}

// Reading is a measured value with its date.
type Reading struct {
	ID       ID      `json:"id"`
	Date     string  `json:"date"`     // ISO 8601, as written
	Quantity string  `json:"quantity"` // "volt", "amp" or "ohm"
	From     PinRef  `json:"from"`
	To       PinRef  `json:"to,omitzero"` // empty: battery negative
	State    ID      `json:"state,omitzero"`
	Value    float64 `json:"value"`
	Notes    string  `json:"notes,omitempty"`
	Extra    Extra   `json:"-"`
}

func (r *Reading) Key() Key { return Key{TypeReading, r.ID} }
func (*Reading) item()      {}
