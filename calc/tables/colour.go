package tables

// ColourRow is a wire colour with the code of IEC 60757.
type ColourRow struct {
	Code    string
	Name    string
	R, G, B uint8 // for display; the standard gives none
}

var colours = [...]ColourRow{
	{"BK", "black", 0x00, 0x00, 0x00}, {"BN", "brown", 0x7B, 0x3F, 0x00}, {"RD", "red", 0xD0, 0x00, 0x00},
	{"OG", "orange", 0xFF, 0x7F, 0x00}, {"YE", "yellow", 0xFF, 0xE0, 0x00}, {"GN", "green", 0x00, 0x85, 0x2B},
	{"BU", "blue", 0x00, 0x50, 0xC8}, {"VT", "violet", 0x7A, 0x2E, 0x9E}, {"GY", "grey", 0x80, 0x80, 0x80},
	{"WH", "white", 0xFF, 0xFF, 0xFF}, {"PK", "pink", 0xFF, 0x8F, 0xB4}, {"GD", "gold", 0xC9, 0xA2, 0x27},
	{"TQ", "turquoise", 0x30, 0xB4, 0xB4}, {"SR", "silver", 0xB8, 0xBC, 0xC2},
	{"GNYE", "green-and-yellow", 0x00, 0x85, 0x2B}, // drawn green with a yellow stripe
}

// Colours lists the codes in the order of the standard. The display values are
// this project's own.
func Colours() Table[ColourRow] {
	return Table[ColourRow]{Source{Title: "IEC 60757", Place: "colour codes; display values are our own choice"}, colours[:]}
}

// ColourByCode finds a colour by its code in capitals.
func ColourByCode(code string) (ColourRow, bool) {
	return Colours().Find(func(r ColourRow) bool { return r.Code == code })
}
