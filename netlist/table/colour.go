package table

import (
	"strings"

	"loomwright/calc/tables"
	"loomwright/schematic"
)

// ColorNamed reads a wire colour: codes of IEC 60757 or the names its table
// gives, base first, with a slash, hyphen or space before the tracer.
func ColorNamed(s string) (schematic.Color, error) {
	c, err := schematic.ParseColor(s)
	if err == nil {
		return c, nil
	}
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return strings.ContainsRune("/- ,", r) })
	var codes []string
	for _, w := range words {
		for _, row := range tables.Colours().All() {
			if w == row.Name || w == strings.ToLower(row.Code) {
				codes = append(codes, row.Code)
			}
		}
	}
	if len(words) == len(codes) && (len(codes) == 1 || len(codes) == 2) {
		return schematic.ParseColor(strings.Join(codes, "/"))
	}
	return c, err
}
