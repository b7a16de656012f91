package render

// What every file of a kind that was written here has near its beginning, by
// which it is known again and may be replaced.
const (
	MadeHTML     = `<meta name="generator" content="trencher">`
	MadeSVG      = "<!-- drawn by trencher -->"
	MadeCalendar = "PRODID:-//trencher//"
)
