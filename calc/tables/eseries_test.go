package tables_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"loomwright/calc/tables"
)

// IEC 60063, E12 (from memory).
func TestNextE12(t *testing.T) {
	for _, c := range []struct{ in, want float64 }{{680, 680}, {680.1, 820}, {821, 1000}, {999, 1000}, {1, 1}, {0.033, 0.033}, {0.034, 0.039}, {9.9e6, 1e7}} {
		got, ok := tables.NextE12(c.in)
		assert.True(t, ok)
		assert.InEpsilon(t, c.want, got, 1e-12, "%v", c.in)
	}
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, ok := tables.NextE12(bad)
		assert.False(t, ok)
	}
}
