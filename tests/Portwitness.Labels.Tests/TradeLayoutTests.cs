namespace Portwitness.Labels.Tests;

/// <summary>Layouts that are read, and next to each one that must not be. Invented after the forms of the trade (common practice, no source).</summary>
public sealed class TradeLayoutTests
{
    [Theory]
    [InlineData("Power C1: 65W\nPower C2: 20W", "1 C1 max 65 W; 2 C2 max 20 W")]
    [InlineData("Max output: C1 65W, C2 20W", "1 C1 max 65 W; 1 C2 max 20 W")]
    [InlineData("Max output: 65W", "1 total 65 W")]
    [InlineData("最大出力：USB-C 20W／USB-A 12W", "1 C max 20 W; 1 A max 12 W")]
    [InlineData("Output (single): C1 65W, C2 65W", "1 C1 max 65 W; 1 C2 max 65 W")]
    [InlineData("C1+C2: 45W+20W\nOutput (multi): C1+C2 45W+20W", "1 together C1+C2 = C1 45 W, C2 20 W; 2 together C1+C2 = C1 45 W, C2 20 W")]
    [InlineData("USB-C1/USB-C2 Output: 5V⎓3A, 9V⎓3A (Each 30W Max)", "1 C1 5 V 3 A; 1 C1 9 V 3 A; 1 C1 max 30 W; 1 C2 5 V 3 A; 1 C2 9 V 3 A; 1 C2 max 30 W")]
    [InlineData("Total: C1+C2 = 65W", "1 together C1+C2 total 65 W")]
    // The parts come to the whole; where they do not, nobody knows what they are.
    [InlineData("Total Output: 65W (C1: 45W, C2: 20W)", "1 together C1+C2 = C1 45 W, C2 20 W; 1 total 65 W")]
    [InlineData("Total Output: 65W (C1: 65W, C2: 20W)", "")]
    [InlineData("USB-C: 5V / 9V / 15V / 20V, 3A", "1 C 5 V 3 A; 1 C 9 V 3 A; 1 C 15 V 3 A; 1 C 20 V 3 A")]
    [InlineData("Rated input 100-240V~ 50/60Hz, Rated output 5V⎓3A", "1 input AC 100-240 V 50/60 Hz; 1 OUT 5 V 3 A")]
    [InlineData("Input voltage: 100-240V~ Input frequency: 50/60Hz Input current: 1.5A", "1 input AC 100-240 V 1.5 A 50/60 Hz")]
    [InlineData("Input: AC 100V~240V 50Hz~60Hz 1.5A", "1 input AC 100-240 V 1.5 A 50/60 Hz")]
    [InlineData("Mains: 220-240V~ 50Hz 0.9A", "1 input AC 220-240 V 0.9 A 50 Hz")]
    public void Layout_IsRead(string text, string read) => string.Join("; ", LineReading.Statements(LabelReader.Read(text))).Should().Be(read);
}
