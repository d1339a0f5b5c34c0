package schematic

import "loomwright/schematic/geom"

// Part is one thing of the vehicle: a relay, a sensor, half a connector, a
// splice, a ground stud. Its [Kind] says what it is made of; Values override
// the kind's parameters.
type Part struct {
	ID    ID     `json:"id"`
	Name  string `json:"name"` // designation, unique in the document: F3, K2, X12
	Kind  string `json:"kind"`
	Label string `json:"label,omitempty"` // what it does: "radiator fan, left"

	// Views are the symbols of the part on the sheets. One part may be shown
	// in several places: coil and contact apart, a ground stud on every sheet.
	Views []View `json:"views,omitempty"`
	// Pins are the part's own pins, for kinds whose pins are counted per part
	// (connectors, control units, fuse blocks). Order is drawing order.
	Pins []Pin `json:"pins,omitempty"`
	// Values are parameter values in the SI unit the kind declares.
	Values map[string]float64 `json:"values,omitempty"`
	// Mate is the other half of a plugged connector. Both halves name each other.
	Mate ID `json:"mate,omitzero"`

	Housing *Housing `json:"housing,omitempty"`
	Number  string   `json:"part_number,omitempty"`
	Loom    ID       `json:"loom,omitzero"` // sub-harness the part belongs to
	Node    ID       `json:"node,omitzero"` // breakout node of that loom where it sits

	// Locked holds the part's symbols in place until it is unlocked.
	Locked bool `json:"locked,omitempty"`

	Build Build  `json:"build,omitempty"`
	Notes string `json:"notes,omitempty"`
	Links []Link `json:"links,omitempty"`
	Extra Extra  `json:"-"`
}

func (p *Part) Key() Key { return Key{TypePart, p.ID} }
func (*Part) item()      {}

// View is one symbol of a part on a sheet.
type View struct {
	Key     string     `json:"key,omitempty"` // unique within the part; "" is fine for a single view
	Sheet   ID         `json:"sheet"`
	At      geom.Point `json:"at"`
	Turns   int        `json:"turns,omitempty"` // quarter turns clockwise, 0..3
	Mirror  bool       `json:"mirror,omitempty"`
	Section string     `json:"section,omitempty"` // which section of the kind's symbol
	Tag     geom.Point `json:"tag,omitzero"`      // designation moved by this much
	Extra   Extra      `json:"-"`
}

// Transform returns the placement of the view's symbol.
func (v View) Transform() geom.Transform {
	return geom.Transform{Orient: geom.Orient{Turns: v.Turns & 3, Mirror: v.Mirror}, At: v.At}
}

// View returns the view with the given key.
func (p *Part) View(key string) (View, bool) {
	for _, v := range p.Views {
		if v.Key == key {
			return v, true
		}
	}
	return View{}, false
}

// Housing is the connector body at a part's pins. Cavities are the pins.
type Housing struct {
	Type     string `json:"type,omitempty"`   // body type as the builder orders it
	Gender   string `json:"gender,omitempty"` // "pin" or "socket" contacts
	Terminal string `json:"terminal,omitempty"`
	Seal     string `json:"seal,omitempty"`
	Plug     string `json:"plug,omitempty"` // what closes an unused cavity
	Sealed   bool   `json:"sealed,omitempty"`
	// ContactMM is the nominal contact width (blade) or diameter in mm.
	ContactMM Num `json:"contact_mm,omitzero"`
	// SealMinMM and SealMaxMM are the insulation diameters its wire seals take.
	SealMinMM Num `json:"seal_min_mm,omitzero"`
	SealMaxMM Num `json:"seal_max_mm,omitzero"`
	// RatedAmp is what one contact may carry, in A.
	RatedAmp Num `json:"rated_amp,omitzero"`
	// WireMinMM2 and WireMaxMM2 are the conductor areas a terminal takes, in mm².
	WireMinMM2 Num   `json:"wire_min_mm2,omitzero"`
	WireMaxMM2 Num   `json:"wire_max_mm2,omitzero"`
	Extra      Extra `json:"-"`
}

// Build is how far the real thing has come. Empty means planned.
type Build string

// The build steps.
const (
	Planned    Build = "planned"
	Cut        Build = "cut"
	Terminated Build = "terminated"
	Sleeved    Build = "sleeved"
	Fitted     Build = "fitted"
	Tested     Build = "tested"
	Parked     Build = "parked" // kept, not connected
)

// Builds lists the build steps in order.
func Builds() []Build {
	return []Build{Planned, Cut, Terminated, Sleeved, Fitted, Tested, Parked}
}
