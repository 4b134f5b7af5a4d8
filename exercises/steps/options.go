package steps

// Distance says how near the feelings that do not fit lie to the ones that do.
type Distance string

// Distances, from easy to hard. The zero value is Mixed.
const (
	Wide  Distance = "wide"  // far ones only, the farthest first
	Mixed Distance = "mixed" // one near, the others far
	Close Distance = "close" // near ones as long as there are any
)

// Options say how the steps of a moment are made. The zero value is an
// ordinary teaching sitting with four choices.
type Options struct {
	Choices  int      // feelings to choose from, 2 to 8; 0 is 4
	Distance Distance // of those that do not fit
	Rich     bool     // shipped words of the richer level where the learner has none
	Short    bool     // pointing only: no Reason, nothing that must be said
	NoAndYou bool     // the guide spares this learner And-you
	NoOffer  bool     // a new word was offered already in this sitting
	Measure  bool     // baseline or probe: no And-you, no What-could-help, no offer
}

func (o Options) choices() int {
	if o.Choices == 0 {
		return 4
	}
	return min(max(o.Choices, 2), 8)
}
