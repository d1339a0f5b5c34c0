package schematic

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
