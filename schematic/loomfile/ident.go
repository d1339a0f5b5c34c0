package loomfile

import (
	"github.com/google/uuid"

	"loomwright/schematic"
)

// nameSpace roots every ID made from a text. It must never change: files that
// are written by hand would get other IDs.
var nameSpace = uuid.UUID{0x29, 0xe6, 0x9b, 0x1e, 0xd7, 0x7e, 0x49, 0x6f, 0xad, 0x7a, 0x1f, 0xb9, 0xad, 0xa6, 0x63, 0xd4}

// DeriveID returns the ID that a text stands for among the items of a type, a
// name-based UUID of version 5 (RFC 9562, section 5.5).
func DeriveID(t schematic.ItemType, text string) schematic.ID {
	return deriveIn(nameSpace, sectionOf(t).word, text)
}

// deriveIn does the same within another ID, such as a node within its loom.
func deriveIn(space uuid.UUID, word, text string) schematic.ID {
	return uuid.NewSHA1(uuid.NewSHA1(space, []byte(word)), []byte(text))
}

// isUUID reports whether a text is an ID as it stands. Only the usual form with
// hyphens counts; every other text is a name.
func isUUID(s string) bool {
	return len(s) == 36 && s[8] == '-' && uuid.Validate(s) == nil
}
