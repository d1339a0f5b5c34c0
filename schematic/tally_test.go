package schematic

import "testing"

func TestTally(t *testing.T) {
	part, wire, note := Key{Type: TypePart}, Key{Type: TypeWire}, Key{Type: TypeNote}
	for _, c := range []struct {
		why  string
		keys []Key
		want string
	}{
		{"nothing", nil, ""},
		{"one of a sort has no plural", []Key{wire}, "1 wire"},
		{"types come in file order, whatever the order of keys", []Key{note, wire, part, wire, part, wire}, "2 parts, 3 wires, 1 note"},
		{"a key without a type counts as the unnamed thing it is, not as an item", []Key{{}, {Type: 200}}, ""},
	} {
		if got := Tally(c.keys); got != c.want {
			t.Errorf("%s: %q, want %q", c.why, got, c.want)
		}
	}
}
