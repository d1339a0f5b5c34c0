package schematic

import (
	"strconv"
	"strings"
)

// Tally counts items in words, by type: "3 parts, 5 wires". Of no items it is "".
func Tally(keys []Key) string {
	var n [typeEnd]int
	for _, k := range keys {
		if k.Type < typeEnd {
			n[k.Type]++
		}
	}
	var words []string
	for _, t := range Types() {
		switch n[t] {
		case 0:
		case 1:
			words = append(words, "1 "+t.String())
		default:
			words = append(words, strconv.Itoa(n[t])+" "+t.String()+"s")
		}
	}
	return strings.Join(words, ", ")
}
