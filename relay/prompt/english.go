package prompt

// english has all texts in English.
type english struct{}

func (english) Code() string { return "en" }

func (english) Number(n int) string { return Number(n) }
