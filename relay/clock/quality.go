package clock

// Quality says how far a clock or a time spent can be trusted.
type Quality uint8

// The qualities.
const (
	QualityNone      Quality = iota // nothing is known
	QualityRead                     // as the feed gave it
	QualityDerived                  // worked out from other readings of the feed
	QualityEstimated                // from receipt times
)

// String returns "none", "read", "derived" or "estimated".
func (q Quality) String() string {
	switch q {
	case QualityRead:
		return "read"
	case QualityDerived:
		return "derived"
	case QualityEstimated:
		return "estimated"
	}
	return "none"
}
