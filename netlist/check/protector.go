package check

import (
	"fmt"
	"math"

	"loomwright/calc"
	"loomwright/netlist"
)

// protectorKey is what opening times depend on.
type protectorKey struct {
	family         string
	rating, linkMM float64
}

type protectorAnswer struct {
	p   calc.Protector
	err error
}

// protector returns the opening times of a fuse, link or breaker.
func (r *run) protector(fuse int) (*calc.Protector, error) {
	br := &r.n.Branches[fuse]
	return r.protectorRated(br, br.Value("amp").Or(0))
}

// protectorRated is the protector of a fuse, had it the rating.
func (r *run) protectorRated(br *netlist.Branch, rating float64) (*calc.Protector, error) {
	key := protectorKey{br.Kind.Family, rating, 0}
	if br.Kind.Family == familyLink {
		key = protectorKey{familyLink, 0, br.Kind.ParamValue(br.Part, br.Pin, "link_mm2").Or(0)}
	}
	a, ok := r.protectors[key]
	if !ok {
		a = &protectorAnswer{}
		air, given := r.doc.Info().AmbientC.Get()
		if !given {
			air = math.NaN()
		}
		switch row, _ := fuseFamily(br.Kind); key.family {
		case familyLink:
			a.p, a.err = calc.LinkProtector(key.linkMM, air)
		case familyBreaker:
			a.p, a.err = calc.BreakerProtector(rating)
		default:
			a.p, a.err = calc.FuseProtector(row.Family, rating, air)
		}
		if r.protectors == nil {
			r.protectors = map[protectorKey]*protectorAnswer{}
		}
		r.protectors[key] = a
	}
	return &a.p, a.err
}

func (r *run) protectorsOf(by []int) ([]*calc.Protector, error) {
	var ps []*calc.Protector
	for _, i := range by {
		p, err := r.protector(i)
		if err != nil {
			return nil, fmt.Errorf("%w: %s: %s", calc.ErrUnknown, r.n.Branches[i].Name(), reason(err))
		}
		ps = append(ps, p)
	}
	return ps, nil
}

// The families of kinds that are no fuses but protect like one.
const (
	familyLink    = "fusible link"
	familyBreaker = "circuit breaker"
)
