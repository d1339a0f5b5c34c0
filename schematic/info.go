package schematic

import "slices"

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

	// WireLabel says what stands beside wires; none is number, size and colour.
	WireLabel []WireWord `json:"wire_label,omitempty"`

	Links []Link `json:"links,omitempty"`
	Extra Extra  `json:"-"`
}

// WireWord is one thing a wire's label can tell.
type WireWord string

// The words.
const (
	WordName    WireWord = "name" // designation
	WordSize    WireWord = "size"
	WordColor   WireWord = "color"
	WordCircuit WireWord = "circuit"
	WordNone    WireWord = "none" // alone: wires have no labels
)

// WireWords lists the words in the order they are written.
func WireWords() []WireWord { return []WireWord{WordName, WordSize, WordColor, WordCircuit} }

// LabelWords returns what wires are labelled with, in the order it is written.
func (i *Info) LabelWords() []WireWord {
	if len(i.WireLabel) == 0 {
		return []WireWord{WordName, WordSize, WordColor}
	}
	var words []WireWord
	for _, w := range WireWords() {
		if slices.Contains(i.WireLabel, w) {
			words = append(words, w)
		}
	}
	return words
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
