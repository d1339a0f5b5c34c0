package tool

// Name is a tool as the user sees it.
type Name struct {
	ID    string // for [New]
	Title string
	Key   string // the key that takes it in hand
	Help  string
}

// Names lists the tools that can be taken in hand, in the order they are
// shown. Placing a part starts from the tray: see [Place].
func Names() []Name {
	return []Name{
		{"select", "Select", "S", "Select, move and reshape what is drawn"},
		{"wire", "Draw wire", "W", "Draw a wire from pin to pin, or onto another wire"},
		{"note", "Write note", "N", "Put text or a named frame on the sheet"},
		{"trace", "Trace circuit", "T", "Light up the circuit through a pin or wire"},
		{"pan", "Move sheet", "G", "Push the sheet about"},
	}
}

// New returns the named tool, ready for use.
func New(id string) (State, bool) {
	switch id {
	case "select":
		return selectIdle{}, true
	case "wire":
		return wireIdle{}, true
	case "note":
		return noteIdle{}, true
	case "trace":
		return traceIdle{}, true
	case "pan":
		return panIdle{}, true
	}
	return nil, false
}

// Place returns the tool that places parts of a kind.
func Place(kind string) State { return placeHolding{kind: kind} }
