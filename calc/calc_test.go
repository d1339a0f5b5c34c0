package calc_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc"
	"loomwright/calc/unit"
)

// value is the checked value of a function that must succeed.
func value(t *testing.T) func(calc.Result, error) float64 {
	return func(r calc.Result, err error) float64 {
		t.Helper()
		require.NoError(t, err)
		assert.NotEmpty(t, r.Formula)
		assert.NotEmpty(t, r.Source.Title)
		assert.NotContains(t, r.Formula, "NaN")
		assert.NotContains(t, r.Formula, unit.Unknown)
		return r.Value
	}
}

// unknown requires "not assessed" naming what is missing.
func unknown(t *testing.T, err error, says string) {
	t.Helper()
	require.ErrorIs(t, err, calc.ErrUnknown)
	assert.ErrorContains(t, err, says)
}
