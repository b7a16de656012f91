package journal

import (
	"io/fs"
	"path"
	"time"

	"trencher/units/pattern"
)

var (
	datesIn   = pattern.New(`\b\d{4}-\d\d-\d\d(T\d\d:\d\d:\d\d[+-]\d\d:\d\d)?`)
	entryName = pattern.New(`^(\d{4})-(\d{4})-(.*)$`)
)

// Redated reads the files of an example plot with every date in them, and in
// the names of its entries, moved by the same number of days: what stood on the
// day from stands on the day to. Times of day stay what they are on the clock,
// in the zone of to.
func Redated(plot fs.FS, from, to time.Time) ([]Source, error) {
	moved := redating{days: daysBetween(from, to), zone: to.Location()}
	var files []Source
	err := fs.WalkDir(plot, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		data, err := fs.ReadFile(plot, name)
		if err != nil {
			return err
		}
		files = append(files, Source{File: moved.name(name), Data: datesIn.ReplaceAllFunc(data, moved.date)})
		return nil
	})
	return files, err
}

func daysBetween(from, to time.Time) int {
	civil := func(t time.Time) time.Time { // in UTC, where a day has 24 hours
		day, _ := time.Parse(time.DateOnly, t.Format(time.DateOnly))
		return day
	}
	return int(civil(to).Sub(civil(from)) / (24 * time.Hour))
}

// redating moves dates by a number of days.
type redating struct {
	days int
	zone *time.Location
}

// date moves a day or a moment; what is neither stays.
func (r redating) date(text []byte) []byte {
	if day, err := time.Parse(time.DateOnly, string(text)); err == nil {
		return []byte(day.AddDate(0, 0, r.days).Format(time.DateOnly))
	}
	at, err := time.Parse(time.RFC3339, string(text))
	if err != nil {
		return text
	}
	at = at.AddDate(0, 0, r.days)
	at = time.Date(at.Year(), at.Month(), at.Day(), at.Hour(), at.Minute(), 0, 0, r.zone)
	return []byte(at.Format(time.RFC3339))
}

// name moves the file name of an entry with its date.
func (r redating) name(file string) string {
	dir, base := path.Split(file)
	parts := entryName.FindStringSubmatch(base)
	if parts == nil {
		return file
	}
	day, err := time.Parse("2006-0102", path.Base(dir)+"-"+parts[1])
	if err != nil {
		return file
	}
	day = day.AddDate(0, 0, r.days)
	return path.Join("journal", day.Format("2006"), day.Format("0102")+"-"+parts[2]+"-"+parts[3])
}
