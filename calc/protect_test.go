package calc_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"loomwright/calc"
	"loomwright/calc/tables"
)

// AC 43.13-1B Table 11-4: two 55 W lamps at 12 V ask for 45.8 A, a 4 A motor
// at 28 V for 12 A.
func TestSwitchRating(t *testing.T) {
	assert.InDelta(t, 45.8, value(t)(calc.SwitchRating(tables.LampLoad, 110./12, 12)), 0.05)
	assert.InDelta(t, 12, value(t)(calc.SwitchRating(tables.MotorLoad, 4, 28)), 1e-9)
	_, err := calc.SwitchRating(tables.MotorLoad, 4, 48)
	unknown(t, err, "12 and 24 V")
	_, err = calc.SwitchRating(0, 4, 12)
	unknown(t, err, "kind of load")
}
