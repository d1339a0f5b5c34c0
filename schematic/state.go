package schematic

// Engine is what the engine does in an operating state.
type Engine string

// The engine states.
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
