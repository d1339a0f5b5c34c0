package catalog

import "testing"

func TestLoad(t *testing.T) {
	lib, err := Default()
	if err != nil {
		t.Fatal(err)
	}
	t.Log(len(lib.Names()))
}
