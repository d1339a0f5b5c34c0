package schematic

import (
	"encoding/json"
	"fmt"
	"math"
)

// MaxNum bounds every number of a document; larger ones are slips, not wiring.
const MaxNum = 1e9

// Num is a number that may be unknown. The zero value is unknown: missing data
// must stay visible as missing, never become 0.
type Num struct {
	v     float64
	known bool
}

// Some returns a known number. NaN and infinities give an unknown one.
func Some(v float64) Num {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return Num{}
	}
	return Num{v, true}
}

// Get returns the value and whether it is known.
func (n Num) Get() (float64, bool) { return n.v, n.known }

// Known reports whether the number is known.
func (n Num) Known() bool { return n.known }

// Or returns the value, or def when unknown.
func (n Num) Or(def float64) float64 {
	if n.known {
		return n.v
	}
	return def
}

// IsZero reports whether the number is unknown, for omitzero.
func (n Num) IsZero() bool { return !n.known }

// MarshalJSON writes a number, or null when unknown.
func (n Num) MarshalJSON() ([]byte, error) {
	if !n.known {
		return []byte("null"), nil
	}
	if math.Abs(n.v) > MaxNum {
		return nil, fmt.Errorf("%g is out of range: numbers lie within ±%g", n.v, MaxNum)
	}
	return json.Marshal(n.v)
}

// UnmarshalJSON reads a number or null.
func (n *Num) UnmarshalJSON(b []byte) error {
	if string(b) == "null" {
		*n = Num{}
		return nil
	}
	var v float64
	if err := json.Unmarshal(b, &v); err != nil {
		return fmt.Errorf("%.40q is not a number", b)
	}
	if math.Abs(v) > MaxNum {
		return fmt.Errorf("%g is out of range: numbers lie within ±%g", v, MaxNum)
	}
	*n = Some(v)
	return nil
}
