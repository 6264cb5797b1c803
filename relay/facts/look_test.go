package facts

import "testing"
import "clocktell/relay/bitboard"
import "fmt"

func TestTmp(t *testing.T) {
	p, _ := bitboard.ParseFEN("r1bqk1nr/pppp1ppp/2n5/2b1p3/2B1P3/5N2/PPPP1PPP/RNBQK2R w KQkq - 4 4")
	for _, f := range Of(&p) {
		fmt.Println(f)
	}
}

func BenchmarkOf(b *testing.B) {
	p, _ := bitboard.ParseFEN("r1bqk1nr/pppp1ppp/2n5/2b1p3/2B1P3/5N2/PPPP1PPP/RNBQK2R w KQkq - 4 4")
	b.ReportAllocs()
	for b.Loop() {
		Of(&p)
	}
}
