package ask

import (
	"io/fs"
	"path"
	"regexp"
	"time"

	"trencher/cmd/trencher/demo"
	"trencher/harvest/journal"
)

// Begun is the answer of Begin: the files that now stand in the new plot.
type Begun struct {
	Dir   string
	Files []string
}

// Begin writes the demo plot into a new folder as a starting point, its dates
// moved so that the lift is on the day of now (or the day before, where the
// lift's hour is still to come). It refuses a folder that holds a plot.
func Begin(dir string, now time.Time) (Begun, error) {
	files, err := movedTo(demo.Plot(), now)
	if err != nil {
		return Begun{}, err
	}
	written, err := journal.Begin(dir, files)
	return Begun{Dir: dir, Files: written}, err
}

var (
	demoDate  = regexp.MustCompile(`2031-\d\d-\d\d(T\d\d:\d\d:\d\d\+01:00)?`)
	entryName = regexp.MustCompile(`^(\d{4})-(\d{4})-(.*)$`)
)

// movedTo reads the demo's files with every date moved by the same number of
// days.
func movedTo(plot fs.FS, now time.Time) ([]journal.Source, error) {
	today := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, now.Location())
	if latest := today.Add(11 * time.Hour); now.Before(latest) {
		today = today.AddDate(0, 0, -1)
	}
	day := demo.Day()
	first := time.Date(day.Year(), day.Month(), day.Day(), 0, 0, 0, 0, time.UTC)
	last := time.Date(today.Year(), today.Month(), today.Day(), 0, 0, 0, 0, time.UTC)
	days := int(last.Sub(first) / (24 * time.Hour))
	var moved []journal.Source
	err := fs.WalkDir(plot, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		data, err := fs.ReadFile(plot, name)
		if err != nil {
			return err
		}
		data = demoDate.ReplaceAllFunc(data, func(text []byte) []byte {
			return []byte(movedDate(string(text), days, now.Location()))
		})
		moved = append(moved, journal.Source{File: movedName(name, days), Data: data})
		return nil
	})
	return moved, err
}

func movedDate(text string, days int, zone *time.Location) string {
	if date, err := time.Parse(time.DateOnly, text); err == nil {
		return date.AddDate(0, 0, days).Format(time.DateOnly)
	}
	at, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return text
	}
	at = at.AddDate(0, 0, days)
	return time.Date(at.Year(), at.Month(), at.Day(), at.Hour(), at.Minute(), 0, 0, zone).Format(time.RFC3339)
}

// movedName moves a journal entry's file name with its date.
func movedName(name string, days int) string {
	dir, base := path.Split(name)
	parts := entryName.FindStringSubmatch(base)
	if parts == nil {
		return name
	}
	date, err := time.Parse("2006-0102", path.Base(dir)+"-"+parts[1])
	if err != nil {
		return name
	}
	date = date.AddDate(0, 0, days)
	return path.Join("journal", date.Format("2006"), date.Format("0102")+"-"+parts[2]+"-"+parts[3])
}
