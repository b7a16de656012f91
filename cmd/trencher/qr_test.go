package main

import (
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// modulesOf reads a drawn code back: whether each module is dark, two rows to a
// line.
func modulesOf(t *testing.T, drawn string) (dark [][]bool) {
	t.Helper()
	for line := range strings.Lines(drawn) {
		var upper, lower []bool
		for _, half := range strings.TrimSuffix(line, "\n") {
			upper = append(upper, half == ' ' || half == '▄')
			lower = append(lower, half == ' ' || half == '▀')
		}
		dark = append(dark, upper, lower)
	}
	return dark
}

// The size, the quiet zone, the three finder patterns and the timing pattern are
// those of ISO/IEC 18004: 21 modules and 4 for each version more, 4 around them.
func TestQRCodeHasItsPatterns(t *testing.T) {
	for _, address := range []string{"http://10.0.0.2:80/", "http://192.168.100.200:8460/", "http://[fd12:3456:789a:bcde::1]:8460/"} {
		drawn, err := qrCode(address, false)
		require.NoError(t, err)
		dark := modulesOf(t, drawn)
		size := len(dark[0]) - 2*quietZone
		assert.Equal(t, 1, size%4, "17 + 4 times the version")
		assert.LessOrEqual(t, len(dark[0]), 80, "it fits a terminal")
		at := func(x, y int) bool { return dark[quietZone+y][quietZone+x] }
		for n := range len(dark[0]) {
			for edge := range quietZone {
				assert.False(t, dark[edge][n] || dark[n][edge] || dark[len(dark[0])-1-edge][n] || dark[n][len(dark[0])-1-edge], "a quiet zone")
			}
		}
		for y := range 7 {
			for x := range 7 {
				ring := max(abs(x-3), abs(y-3)) // square rings about the middle: dark, dark, light, dark
				assert.Equal(t, ring != 2, at(x, y))
				assert.Equal(t, ring != 2, at(size-1-x, y))
				assert.Equal(t, ring != 2, at(x, size-1-y))
			}
		}
		for n := 8; n < size-8; n++ {
			assert.Equal(t, n%2 == 0, at(n, 6), "the timing pattern")
			assert.Equal(t, n%2 == 0, at(6, n))
		}
		assert.True(t, at(8, size-8), "the dark module")
	}
}

func abs(n int) int { return max(n, -n) }

// What was printed and what a general-purpose reader of codes makes of it:
// zbarimg, under TRENCHER_LIVE=1, reads the very blocks that stand in
// testdata/qr.txt, which plain `go test` compares.
func TestQRCodeIsRead(t *testing.T) {
	const address = "http://192.168.1.20:8460/"
	drawn, err := qrCode(address, false)
	require.NoError(t, err)
	file := filepath.Join("testdata", "qr.txt")
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(drawn), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), drawn)
	painted, err := qrCode(address, true)
	require.NoError(t, err)
	assert.Equal(t, drawn, strings.NewReplacer("\x1b[97;40m", "", "\x1b[0m", "").Replace(painted))
	if os.Getenv("TRENCHER_LIVE") != "1" {
		return
	}
	for _, address := range []string{address, "http://10.1.2.3:80/", "http://172.16.254.254:65535/", "http://[fd12:3456:789a:bcde:f012:3456:789a:bcde]:65535/"} {
		drawn, err := qrCode(address, false)
		require.NoError(t, err)
		read, err := exec.Command("zbarimg", "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", pictureOf(t, modulesOf(t, drawn))).Output()
		require.NoError(t, err, "zbarimg, of zbar-tools")
		assert.Equal(t, address, strings.TrimSpace(string(read)))
	}
}

// pictureOf is a picture of a code, eight pixels to a module.
func pictureOf(t *testing.T, dark [][]bool) (file string) {
	t.Helper()
	const wide = 8
	picture := image.NewGray(image.Rect(0, 0, wide*len(dark[0]), wide*len(dark)))
	for y, row := range dark {
		for x, is := range row {
			for n := range wide * wide {
				if !is {
					picture.SetGray(wide*x+n%wide, wide*y+n/wide, color.Gray{Y: 255})
				}
			}
		}
	}
	file = filepath.Join(t.TempDir(), "code.png")
	to, err := os.Create(file)
	require.NoError(t, err)
	defer to.Close()
	require.NoError(t, png.Encode(to, picture))
	return file
}
