package catalog_test

import (
	"fmt"

	"loomwright/schematic/catalog"
)

// Find a kind by the words of the trade and make a part of it.
func Example() {
	lib, err := catalog.Default()
	if err != nil {
		fmt.Println(err)
		return
	}
	k := catalog.Search(lib, "fuse box")[0]
	p := catalog.WithPins(k, catalog.New(k, "F1"), 2)
	fmt.Println(k.Title)
	for _, pin := range p.Pins {
		fmt.Println(p.Name, pin.Name, pin.Role)
	}
	// Output:
	// Fuse block, blade
	// F1 in feed
	// F1 1 output
	// F1 2 output
}
