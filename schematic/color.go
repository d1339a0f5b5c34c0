package schematic

import (
	"fmt"
	"slices"
	"strings"
)

// Color is a wire's insulation: base and, where there is one, tracer, as IEC
// 60757 two-letter codes. The zero value is "not given".
type Color struct{ Base, Tracer string }

// ColorCodes lists the codes of IEC 60757 in the order of its table.
func ColorCodes() []string {
	return []string{"BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR", "GNYE"}
}

// ParseColor reads "BU", "BU/RD" (vehicle notation: base first) or "".
func ParseColor(s string) (Color, error) {
	s = strings.ToUpper(strings.TrimSpace(s))
	if s == "" {
		return Color{}, nil
	}
	base, tracer, two := strings.Cut(s, "/")
	c := Color{strings.TrimSpace(base), strings.TrimSpace(tracer)}
	if !isColor(c.Base) || two && !isColor(c.Tracer) {
		return Color{}, fmt.Errorf("%.20q is not a wire colour: write a code such as BK, RD or BU/RD (known: %s)",
			s, strings.Join(ColorCodes(), " "))
	}
	if c.Base == c.Tracer {
		c.Tracer = ""
	}
	return c, nil
}

func isColor(s string) bool { return slices.Contains(ColorCodes(), s) }

// String returns "BU", "BU/RD" or "".
func (c Color) String() string {
	if c.Tracer == "" {
		return c.Base
	}
	return c.Base + "/" + c.Tracer
}

// IsZero reports whether no colour is given.
func (c Color) IsZero() bool { return c == Color{} }

func (c Color) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

func (c *Color) UnmarshalText(b []byte) error {
	v, err := ParseColor(string(b))
	if err == nil {
		*c = v
	}
	return err
}
