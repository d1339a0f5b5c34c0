package schematic

import (
	"encoding/json"
	"fmt"
	"math"
)

// MarshalJSON writes the number, or the parameter's name as a string.
func (a Arg) MarshalJSON() ([]byte, error) {
	if a.Param != "" {
		return json.Marshal(a.Param)
	}
	if math.Abs(a.Value) > MaxNum {
		return nil, fmt.Errorf("%g is out of range: numbers lie within ±%g", a.Value, MaxNum)
	}
	return json.Marshal(a.Value)
}

// UnmarshalJSON reads a number or the name of a parameter.
func (a *Arg) UnmarshalJSON(b []byte) error {
	if len(b) > 0 && b[0] == '"' {
		*a = Arg{}
		if err := json.Unmarshal(b, &a.Param); err != nil || a.Param == "" {
			return fmt.Errorf("%.40q is neither a number nor the name of a parameter", b)
		}
		return nil
	}
	var v float64
	if err := json.Unmarshal(b, &v); err != nil || string(b) == "null" || math.Abs(v) > MaxNum {
		return fmt.Errorf("%.40q is neither a number within ±%g nor the name of a parameter", b, MaxNum)
	}
	*a = Arg{Value: v}
	return nil
}

// Value returns the value of an element's argument for a part: the pin's own
// value, else the part's, else the default of the role or kind. It is unknown
// when nobody gave one. Pin may be nil; role is the pin's role.
func (k *Kind) Value(p *Part, pin *Pin, e Element, arg string) Num {
	a, ok := e.Args[arg]
	if !ok {
		return Num{}
	}
	if a.Param == "" {
		return Some(a.Value)
	}
	return k.ParamValue(p, pin, a.Param)
}

// ParamValue returns the value of a parameter for a part (and own pin, which
// may be nil), or unknown.
func (k *Kind) ParamValue(p *Part, pin *Pin, name string) Num {
	if pin != nil {
		if v, ok := pin.Values[name]; ok {
			return Some(v)
		}
	}
	if p != nil {
		if v, ok := p.Values[name]; ok {
			return Some(v)
		}
	}
	if pin != nil {
		if r, ok := k.Role(pin.Role); ok {
			if prm, ok := r.Param(name); ok {
				return prm.Default
			}
		}
	}
	prm, _ := k.Param(name)
	return prm.Default
}
