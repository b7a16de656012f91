package main

import (
	"image/color"
	"strings"

	"github.com/boombuler/barcode/qr"
)

// quietZone is the light border a code needs, in modules (ISO/IEC 18004, 9.1).
const quietZone = 4

// qrCode draws a QR code of a text as lines for a terminal, two rows of modules
// to a line. Light modules are drawn and dark ones left out, as is right where
// the terminal is dark; painted it is black on white in any terminal.
func qrCode(text string, painted bool) (string, error) {
	code, err := qr.Encode(text, qr.M, qr.Auto)
	if err != nil {
		return "", err
	}
	size := code.Bounds().Dx()
	isLight := func(x, y int) bool {
		return x < 0 || y < 0 || x >= size || y >= size || code.At(x, y) != color.Black
	}
	var drawn strings.Builder
	for y := -quietZone; y < size+quietZone; y += 2 {
		if painted {
			drawn.WriteString("\x1b[97;40m") // bright white on black
		}
		for x := -quietZone; x < size+quietZone; x++ {
			drawn.WriteString(halfBlock(isLight(x, y), isLight(x, y+1)))
		}
		if painted {
			drawn.WriteString("\x1b[0m")
		}
		drawn.WriteString("\n")
	}
	return drawn.String(), nil
}

// halfBlock is one character with an upper and a lower half.
func halfBlock(upper, lower bool) string {
	switch {
	case upper && lower:
		return "█"
	case upper:
		return "▀"
	case lower:
		return "▄"
	}
	return " "
}
