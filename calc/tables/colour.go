package tables

import "fmt"

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

// JoinColours writes the code of an item of two colours as IEC 60757 does: in
// the order of its table, without separator (red and blue is RDBU). Green
// with yellow is GNYE, reserved for protective conductors.
func JoinColours(a, b string) (string, error) {
	order := func(code string) int {
		for i, c := range Colours().All() {
			if c.Code == code && code != "GNYE" {
				return i
			}
		}
		return -1
	}
	i, j := order(a), order(b)
	switch {
	case i < 0:
		return "", fmt.Errorf("%q is not a colour of IEC 60757 that can be combined", a)
	case j < 0:
		return "", fmt.Errorf("%q is not a colour of IEC 60757 that can be combined", b)
	case i == j:
		return a, nil
	case a == "GN" && b == "YE" || a == "YE" && b == "GN":
		return "GNYE", nil
	case i > j:
		a, b = b, a
	}
	return a + b, nil
}
