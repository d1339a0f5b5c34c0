package catalog

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
)

// din72552 lists the terminal numbers of DIN 72552 (1971-03) that kinds of this
// library may use, after public copies of its table; 87 and its letters as the
// relay trade uses them.
var din72552 = map[string]string{
	"1": "ignition coil, low voltage", "4": "ignition coil, high voltage", "15": "switched positive after ignition switch",
	"30": "positive direct from battery", "31": "return to battery negative", "32": "motor return", "33": "motor main terminal",
	"50": "starter control", "56a": "main beam", "56b": "dipped beam", "58d": "instrument lighting, dimmed", "75": "radio, accessories",
	"81": "break and change-over switch, input", "81a": "first output", "81b": "second output", "82": "make switch, input", "82a": "output",
	"83": "multi-position switch, input", "83a": "output", "83b": "output", "83c": "output",
	"85": "relay coil, end", "86": "relay coil, start", "86a": "relay coil, first or second winding", "87": "relay, make", "87a": "relay, break",
}

func TestTerminalNumbersAreOfTheStandard(t *testing.T) {
	numbered := regexp.MustCompile(`^[1-9][0-9][a-zA-Z]?$`)
	eachKind(t, func(t *testing.T, k *schematic.Kind) {
		if k.OwnPins {
			return // cavities count on
		}
		for _, p := range k.Pins {
			if numbered.MatchString(p.Name) {
				require.Contains(t, din72552, p.Name)
			}
		}
	})
}

// What the terminals of DIN 72552 do, by the element that is at them.
func TestTerminalsDoWhatTheirNumberSays(t *testing.T) {
	lib := library(t)
	for _, tc := range []struct {
		kind, element string
		typ           schematic.ElementType
		a, b          string
		brk           bool
		in            []string
	}{
		{"relay-make", "coil", schematic.ElemCoil, "86", "85", false, nil},
		{"relay-make", "make contact", schematic.ElemContact, "30", "87", false, nil},
		{"relay-change-over", "make contact", schematic.ElemContact, "30", "87", false, nil},
		{"relay-change-over", "break contact", schematic.ElemContact, "30", "87a", true, nil},
		{"relay-change-over-apart", "break contact", schematic.ElemContact, "30", "87a", true, nil},
		// 86 is positive when a diode is fitted: its cathode is there.
		{"relay-make-diode", "coil diode", schematic.ElemDiode, "85", "86", false, nil},
		{"starter-motor", "hold-in winding", schematic.ElemCoil, "50", "31", false, nil},
		{"switch-ignition", "accessory", schematic.ElemContact, "30", "75", false, []string{"accessory", "run"}},
		{"switch-ignition", "run", schematic.ElemContact, "30", "15", false, []string{"run", "start"}},
		{"switch-ignition", "start", schematic.ElemContact, "30", "50", false, []string{"start"}},
		{"switch-toggle", "contact", schematic.ElemContact, "82", "82a", false, []string{"on"}},
		{"switch-push-break", "contact", schematic.ElemContact, "81", "81a", false, []string{"released"}},
		{"switch-rotary", "contact c", schematic.ElemContact, "83", "83c", false, []string{"c"}},
		{"lamp-two-filament", "main filament", schematic.ElemLamp, "56a", "31", false, nil},
		{"lamp-two-filament", "dipped filament", schematic.ElemLamp, "56b", "31", false, nil},
		{"ignition-coil", "primary", schematic.ElemResistor, "15", "1", false, nil},
		{"instrument", "lighting", schematic.ElemLamp, "58d", "31", false, nil},
		{"motor", "motor", schematic.ElemMotor, "33", "32", false, nil},
		{"alternator", "output", schematic.ElemAlternator, "B+", "B-", false, nil},
	} {
		t.Run(tc.kind+" "+tc.element, func(t *testing.T) {
			e, ok := elementNamed(lib.Kind(tc.kind), tc.element)
			require.True(t, ok)
			require.Equal(t, tc.typ, e.Type)
			require.Equal(t, [2]string{tc.a, tc.b}, [2]string{e.A, e.B})
			require.Equal(t, tc.brk, e.Break)
			require.Equal(t, tc.in, e.In)
		})
	}
}

func elementNamed(k *schematic.Kind, name string) (schematic.Element, bool) {
	if k == nil {
		return schematic.Element{}, false
	}
	for _, e := range k.Elements {
		if e.Name == name {
			return e, true
		}
	}
	return schematic.Element{}, false
}
