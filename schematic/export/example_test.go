package export_test

import (
	"bytes"
	"context"
	"fmt"
	"image/png"

	"loomwright/schematic/draw"
	"loomwright/schematic/export"
)

func ExamplePNG() {
	sheet := &draw.List{Size: draw.Point{X: 254, Y: 127}} // mm
	var file bytes.Buffer
	if err := export.PNG(context.Background(), &file, sheet, export.PNGOptions{DPI: 100, Palette: export.Light()}); err != nil {
		fmt.Println(err)
		return
	}
	img, _ := png.Decode(&file)
	fmt.Println(img.Bounds().Size())
	// Output: (1000,500)
}
