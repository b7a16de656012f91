package ask

import (
	"fmt"
	"time"

	"trencher/harvest/journal"
	"trencher/recipes/meal"
)

// take writes what a plan uses into the journal, lot by lot and dish by dish, so
// that the stock is true afterwards, and returns the files.
func (p *Plot) take(plan meal.Plan) ([]string, error) {
	at := journal.Now(p.where.Now)
	if p.where.On != "" {
		at = p.On.Add(12 * time.Hour)
	}
	var files []string
	for _, move := range meal.Uses(plan) {
		move.At = at
		file, err := p.folder.Write(&move)
		if err != nil {
			return files, fmt.Errorf("%w; written so far: %d entries", err, len(files))
		}
		files = append(files, file)
	}
	return files, nil
}
