package schematic

import (
	"bytes"

	"github.com/google/uuid"
)

// ID names an item for ever. The zero ID means "none".
type ID = uuid.UUID

// ItemType is one of the closed set of item types.
type ItemType uint8

// The item types in the order files hold them.
const (
	TypeInfo ItemType = iota + 1
	TypeSheet
	TypeKind
	TypePart
	TypeWire
	TypeGroup
	TypeLoom
	TypeState
	TypeNote
	TypeReading
	TypeAcceptance

	typeEnd
)

// Types lists every item type in file order.
func Types() []ItemType {
	all := make([]ItemType, 0, typeEnd-1)
	for t := TypeInfo; t < typeEnd; t++ {
		all = append(all, t)
	}
	return all
}

// String returns the plain word a user sees.
func (t ItemType) String() string {
	switch t {
	case TypeInfo:
		return "document"
	case TypeSheet:
		return "sheet"
	case TypeKind:
		return "part kind"
	case TypePart:
		return "part"
	case TypeWire:
		return "wire"
	case TypeGroup:
		return "wire group"
	case TypeLoom:
		return "loom"
	case TypeState:
		return "operating state"
	case TypeNote:
		return "note"
	case TypeReading:
		return "reading"
	case TypeAcceptance:
		return "acceptance"
	}
	return "unknown item"
}

// Key names an item together with its type. The zero Key names nothing.
type Key struct {
	Type ItemType
	ID   ID
}

// Compare orders keys by type, then by ID.
func (k Key) Compare(l Key) int {
	if k.Type != l.Type {
		return int(k.Type) - int(l.Type)
	}
	return bytes.Compare(k.ID[:], l.ID[:])
}

// Item is anything a document holds. Items are pointers to structs that nobody
// writes after they are put into a document; to change one, put a changed copy.
// The set is closed: see [Types].
type Item interface {
	Key() Key
	item()
}

// Extra keeps fields of a file that this version does not know, so that they
// survive a round trip. Values are JSON text.
type Extra map[string][]byte
