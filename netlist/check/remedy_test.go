package check_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// 1 mm² 18.5, 1.25 mm² 14.9 mΩ/m (ISO 6722, from memory).
func TestThickerWireRaisesTheVoltage(t *testing.T) {
	tryRule(t, "voltage too low to work", "unwarmed\nambient 20", []ruleCase{
		{"wire that loses it", "12 V − 10 A · 0.3367 Ω = 8.63 V", "G1 battery volt=12 ohm=0\nE1 load-two-pin amp=10 min_volt=9\nW1 G1.+ E1.+ 1mm2 18200\nW2 E1.- G1.-" + fat, "warning E1 8.638 > 9 V [use 1.25 mm² for W1]"},
		{"no wire can help", "the battery is too low", "G1 battery volt=8.9 ohm=0\nE1 load-two-pin amp=10 min_volt=9\nW1 G1.+ E1.+ 1mm2 100\nW2 E1.- G1.-" + fat, "warning E1 8.881 > 9 V"},
	})
}

// Every remedy says what it brings, in figures where there are some.
func TestEffectOfRemedies(t *testing.T) {
	for _, c := range []struct{ rule, plan, effect string }{
		{"charging line drop", "unwarmed\nambient 20\nG1 battery volt=12 ohm=0.01\nG2 alternator volt=14.2 ohm=0.01 limit_amp=60\nE1 load-two-pin amp=30\nW1 G2.B+ G1.+ 4mm2 1780\nW2 G1.- G2.B- 4mm2 500\nW3 G1.+ E1.+" + fat + "\nW4 E1.- G1.-" + fat + "\nstate run running",
			"0.421 V are then lost instead of 0.503 V"},
		{"voltage too low to work", "unwarmed\nambient 20\nG1 battery volt=12 ohm=0\nE1 load-two-pin amp=10 min_volt=9\nW1 G1.+ E1.+ 1mm2 18200\nW2 E1.- G1.-" + fat, "it then gets 9.29 V instead of 8.64 V"},
		{"indicator badly fed", "G1 battery volt=12 ohm=0\nH1 indicator-led series_ohm=470\nW1 G1.+ H1.+" + fat + "\nW2 H1.- G1.-" + fat, "it then carries about 17.5 mA"},
	} {
		found := run(t, doc(t, c.plan))
		var effects []string
		for _, f := range found {
			for _, x := range f.Fixes {
				if f.Rule == c.rule {
					effects = append(effects, x.Effect)
				}
			}
		}
		require.NotEmpty(t, effects, c.rule)
		assert.Contains(t, strings.Join(effects, "\n"), c.effect)
	}
}
