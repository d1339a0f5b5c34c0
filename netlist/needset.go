package netlist

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"loomwright/schematic"
)

// need is a set of switch positions and drivers that are on.
type need map[setKey]string

func (k setKey) compare(o setKey) int {
	return cmp.Or(strings.Compare(k.part.String(), o.part.String()), strings.Compare(k.item, o.item))
}

func (n need) String() string {
	var b strings.Builder
	for _, k := range slices.SortedFunc(maps.Keys(n), setKey.compare) {
		fmt.Fprint(&b, k.part, k.item, n[k], ";")
	}
	return b.String()
}

// words names a combination as people do.
func (n need) words(net *Netlist, engine schematic.Engine) string {
	var names []string
	for k, pos := range n {
		name := net.Doc.Part(k.part).Name
		if k.item != "" {
			name += "." + k.item
		}
		names = append(names, name+" "+pos)
	}
	slices.SortFunc(names, schematic.CompareNames)
	if len(names) == 0 {
		names = []string{"nothing switched on"}
	}
	return strings.Join(append(names, "engine "+string(engine)), ", ")
}

func (n need) agrees(o need) bool {
	for k, v := range o {
		if have, ok := n[k]; ok && have != v {
			return false
		}
	}
	return true
}

func (n need) within(o need) bool {
	for k, v := range n {
		if o[k] != v {
			return false
		}
	}
	return true
}
