package schematic

// Info is the one item every document has: title block, settings and limits.
type Info struct {
	Title   string `json:"title,omitempty"`
	Vehicle string `json:"vehicle,omitempty"`
	Number  string `json:"number,omitempty"` // drawing number
	Issue   string `json:"issue,omitempty"`  // issue letter of the drawing
	Drawn   string `json:"drawn,omitempty"`  // who and when, as the user writes it
	Notes   string `json:"notes,omitempty"`

	// SystemVolt is the nominal voltage: 12 or 24 V. Unknown means 12.
	SystemVolt Num `json:"system_volt,omitzero"`
	// AmbientC is the air temperature for everything without a loom segment.
	AmbientC Num `json:"ambient_c,omitzero"`
	// Limits override the defaults of the checks by name; package check lists
	// the names, units and sourced defaults.
	Limits map[string]float64 `json:"limits,omitempty"`
	// Choices override named choices of the checks (which published set of
	// bundle factors to use, say).
	Choices map[string]string `json:"choices,omitempty"`

	Links []Link `json:"links,omitempty"`
	Extra Extra  `json:"-"`
}

// Link points to a file or address. Nothing is ever embedded.
type Link struct {
	Title  string `json:"title,omitempty"`
	Target string `json:"target"`
	Extra  Extra  `json:"-"`
}

func (*Info) Key() Key { return Key{Type: TypeInfo} }
func (*Info) item()    {}

// Volts returns the nominal system voltage in V.
func (i *Info) Volts() float64 { return i.SystemVolt.Or(12) }
