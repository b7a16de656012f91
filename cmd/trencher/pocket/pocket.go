package pocket

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"html"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"trencher/cmd/trencher/page"
	"trencher/harvest/journal"
	"trencher/units"
)

// The pocket's own files.
var (
	//go:embed web/index.html
	indexText string
	//go:embed web/worker.js
	workerText string
	//go:embed web/engine.js
	engineText string
	//go:embed web/shell.js
	shellText string
	//go:embed web/pocket.css
	styleText string
	//go:embed web/app.webmanifest
	manifestText string
	//go:embed web/icon.svg
	iconDrawing string
	//go:embed web/icon.png
	iconImage []byte
)

// Made is what the first page of every pocket has near its beginning.
const Made = `<meta name="generator" content="trencher">`

// Program is what runs in the phone's browser, besides our own scripts.
type Program struct {
	Wasm []byte // pocket/app for js/wasm, compressed by gzip
	Go   []byte // the Go distribution's own script that starts such programs
}

// file is one file of the folder.
type file struct {
	name string
	data []byte
}

// WriteFolder writes the static files of the page and the plot's parcel into a
// folder, which must be new, empty or an earlier one of these. Files are
// replaced whole, the service worker last, so that a phone takes the new
// edition only once it is all there.
func WriteFolder(dir string, program Program, parcel []byte) error {
	if err := CheckFolder(dir); err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return units.WrongField("", dir, "no folder can be made there: "+err.Error(), "the name of a new folder")
	}
	for _, each := range folderFiles(program, parcel) {
		output := journal.Output{Path: filepath.Join(dir, each.name), Force: true}
		if err := output.Write(writing(each.data)); err != nil {
			return err
		}
	}
	return nil
}

func writing(data []byte) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}
}

// CheckFolder refuses a folder that holds anything but an earlier pocket, or that
// is a place for a plot's own files, before anything is worked out for it.
func CheckFolder(dir string) error {
	if err := journal.CheckApart("", dir); err != nil {
		return err
	}
	list, err := os.ReadDir(dir)
	if os.IsNotExist(err) || err == nil && len(list) == 0 {
		return nil
	}
	if err != nil {
		return units.WrongField("", dir, "is no folder that can be written to", "the name of a new folder")
	}
	first, err := os.ReadFile(filepath.Join(dir, "index.html"))
	if err != nil || !bytes.Contains(first, []byte(Made)) {
		return units.WrongField("", dir, "that folder holds other things", "the name of a new folder")
	}
	return nil
}

// folderFiles are the files of the folder in the order they are written.
func folderFiles(program Program, parcel []byte) []file {
	index := firstPage{
		Policy: policy("'self'", "'self'", "'self'"),
		Head: `<link rel="manifest" href="app.webmanifest">
<link rel="icon" href="icon.svg" type="image/svg+xml">
<link rel="apple-touch-icon" href="icon.png">
<link rel="stylesheet" href="pocket.css">`,
		Foot: `<script src="page.js"></script>
<script src="shell.js"></script>`,
	}
	files := []file{{programFile, program.Wasm}, {"go.js", program.Go}, {"plot.zip", parcel}, {"page.js", []byte(page.Script())},
		{"engine.js", []byte(engineText)}, {"shell.js", []byte(shellText)}, {"pocket.css", []byte(styleText)},
		{"icon.svg", []byte(iconDrawing)}, {"icon.png", iconImage}, {"app.webmanifest", []byte(manifestText)}, {"index.html", []byte(index.text())}}
	return append(files, file{"worker.js", []byte(serviceWorker(files))})
}

// programFile is the one file that the service worker keeps in another form,
// and does not load again for a newer plot.
const programFile = "program.wasm.gz"

// serviceWorker is the service worker for these files, and no others.
func serviceWorker(files []file) string {
	edition, program, names := sha256.New(), "", []string{`"./"`}
	for _, each := range files {
		fmt.Fprintf(edition, "%s %d\n", each.name, len(each.data))
		edition.Write(each.data)
		if each.name == programFile {
			program = shortSum(sha256.Sum256(each.data))
			continue
		}
		names = append(names, `"`+each.name+`"`)
	}
	slices.Sort(names)
	filled := strings.NewReplacer("{{.Edition}}", shortSum([sha256.Size]byte(edition.Sum(nil))), "{{.Program}}", program, "{{.Files}}", "["+strings.Join(names, ",")+"]")
	return filled.Replace(workerText)
}

// shortSum is enough of a sum to tell one edition from another.
func shortSum(sum [sha256.Size]byte) string { return hex.EncodeToString(sum[:8]) }

// firstPage is what the first page is laid out from; Head and Foot are HTML.
type firstPage struct{ Policy, Head, Foot string }

func (p firstPage) text() string {
	filled := strings.NewReplacer("{{.Policy}}", html.EscapeString(p.Policy), "{{.Head}}", p.Head, "{{.Foot}}", p.Foot)
	return filled.Replace(indexText)
}

// policy lets nothing in but our own scripts and styles, and the program that
// they start.
func policy(scripts, styles, workers string) string {
	return "default-src 'none'; script-src " + scripts + " 'wasm-unsafe-eval'; style-src " + styles +
		"; worker-src " + workers + "; connect-src 'self'; img-src 'self' data:; manifest-src 'self'; form-action 'none'; base-uri 'none'"
}

// WriteOneFile writes the whole page as one HTML file, to be handed over by
// cable or message and opened from the phone's own storage.
func WriteOneFile(w io.Writer, program Program, parcel []byte) error {
	engine := inScript(string(program.Go) + "\n" + engineText)
	shell, script := inScript(shellText), inScript(page.Script())
	packed := base64.StdEncoding.EncodeToString
	index := firstPage{
		Policy: policy(hashOf(script)+" "+hashOf(shell), hashOf(styleText), "blob:"),
		Head:   "<style>" + styleText + "</style>",
		Foot: `<script type="application/octet-stream" id="program">` + packed(program.Wasm) + "</script>\n" +
			`<script type="application/octet-stream" id="plot">` + packed(parcel) + "</script>\n" +
			`<script type="text/plain" id="engine">` + engine + "</script>\n" +
			`<script>` + script + `</script>
<script>` + shell + `</script>`,
	}
	_, err := io.WriteString(w, index.text())
	return err
}

// inScript is a script as it can stand inside a page.
func inScript(text string) string { return strings.ReplaceAll(text, "</script", `<\/script`) }

// hashOf is how a content security policy names the one text it lets run.
func hashOf(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}
