package schematic

// Acceptance says that somebody looked at a finding of the checks and lets it
// stand. It holds as long as the finding says the same; package check compares.
// What the finding was about need not exist any more: the acceptance then
// waits, for an undo say, until it is taken back.
type Acceptance struct {
	ID    ID        `json:"id"`
	Rule  string    `json:"rule"`            // name of the rule: "voltage drop"
	Items []Subject `json:"items,omitempty"` // what the finding was about, the main one first
	// Detail tells findings of one rule about one item apart: pins, an element.
	Detail string `json:"detail,omitempty"`

	// What the finding said when it was accepted.
	Severity string `json:"severity,omitempty"`
	Value    Num    `json:"value,omitzero"` // in Unit
	Limit    Num    `json:"limit,omitzero"` // in Unit
	Unit     string `json:"unit,omitempty"` // "A", "V", "ohm", "mm2", …
	Missing  string `json:"missing,omitempty"`

	Reason string `json:"reason"`
	Date   string `json:"date,omitempty"` // ISO 8601, as written
	Extra  Extra  `json:"-"`
}

func (a *Acceptance) Key() Key { return Key{TypeAcceptance, a.ID} }
func (*Acceptance) item()      {}

// Subject names one item by its type: one field is given. None given is the
// document itself.
type Subject struct {
	Part    ID `json:"part,omitzero"`
	Wire    ID `json:"wire,omitzero"`
	Group   ID `json:"group,omitzero"`
	Loom    ID `json:"loom,omitzero"`
	State   ID `json:"state,omitzero"`
	Sheet   ID `json:"sheet,omitzero"`
	Kind    ID `json:"kind,omitzero"`
	Note    ID `json:"note,omitzero"`
	Reading ID `json:"reading,omitzero"`
}

// SubjectOf returns the subject that names an item. Acceptances cannot be
// named.
func SubjectOf(k Key) Subject {
	var s Subject
	if f := s.field(k.Type); f != nil {
		*f = k.ID
	}
	return s
}

// Key returns the item a subject names.
func (s Subject) Key() Key {
	for _, t := range Types() {
		if f := s.field(t); f != nil && *f != (ID{}) {
			return Key{t, *f}
		}
	}
	return Key{Type: TypeInfo}
}

func (s *Subject) field(t ItemType) *ID {
	switch t {
	case TypePart:
		return &s.Part
	case TypeWire:
		return &s.Wire
	case TypeGroup:
		return &s.Group
	case TypeLoom:
		return &s.Loom
	case TypeState:
		return &s.State
	case TypeSheet:
		return &s.Sheet
	case TypeKind:
		return &s.Kind
	case TypeNote:
		return &s.Note
	case TypeReading:
		return &s.Reading
	}
	return nil
}
