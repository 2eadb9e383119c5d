namespace Portwitness.Labels.Tests;

/// <summary>
/// Ratings whose port, quantity or maximum stands on a line of its own, and tables whose rows name the ports in use. Layouts of the trade: common
/// practice, no source; the readings are plain.
/// </summary>
public sealed class PortLayoutTests
{
    [Theory]
    [InlineData("USB-C\nInput: 5V 3A, 9V 2A\nOutput: 5V 3A", "2 input C 5 V 3 A", "2 input C 9 V 2 A", "3 C 5 V 3 A")]
    [InlineData("USB-C（入出力）\n入力：5V／3A\n出力：9V／2A", "2 input C 5 V 3 A", "3 C 9 V 2 A")]
    [InlineData("USB-C\nInput: 5V 3A", "2 input C 5 V 3 A")]

    // Nobody knows which of two names is meant, what an unknown word says, or what gives the watts.
    [InlineData("USB-C1\nUSB-C2\nInput: 5V 3A\nOutput: 5V 3A")]
    [InlineData("Blorp USB-C\nInput: 5V 3A\nOutput: 9V 2A")]
    [InlineData("USB-C\nInput: 5V 3A\nOutput: 10W", "2 input C 5 V 3 A", "3 OUT max 10 W")]
    public void DirectionsBelowAPort_AreThatPorts(string text, params string[] statements) => Read(text).Should().Equal(statements);

    [Theory]
    [InlineData("USB-C\nVoltage: 5V / 9V / 20V\nCurrent: 3A / 3A / 2.25A\nUSB-A: 5V 2A", "2 C 5 V 3 A", "2 C 9 V 3 A", "2 C 20 V 2.25 A", "4 A 5 V 2 A")]
    [InlineData("USB-C出力電圧：5V／9V\nUSB-C出力電流：3A／2A", "1 C 5 V 3 A", "1 C 9 V 2 A")]
    [InlineData("USB-C\n电压：5V/9V\n电流：2A", "2 C 5 V 2 A", "2 C 9 V 2 A")]

    // Three volts and two amperes are no pairs; neither are those of different ports.
    [InlineData("USB-C\nVoltage: 5V / 9V / 20V\nCurrent: 3A / 2.25A")]
    [InlineData("USB-C voltage: 5V / 9V\nUSB-A current: 3A / 2A")]
    public void VoltsOverAmperes_ArePairs(string text, params string[] statements) => Read(text).Should().Equal(statements);

    // Below the modes of a port with another below it, a maximum is that port's, and no total of the product. The last one is the port's where the
    // others have theirs, or where another port gives more.
    [Theory]
    [InlineData("USB-C: 5V 3A, 20V 2.25A\nMax output: 45W\nUSB-A: 5V 3A, 9V 2A\nMax output: 18W", "1 C 5 V 3 A", "1 C 20 V 2.25 A", "2 C max 45 W", "3 A 5 V 3 A", "3 A 9 V 2 A", "4 A max 18 W")]
    [InlineData("USB-C：5V／3A、20V／2.25A\n最大45W\nUSB-A：5V／3A、9V／2A\n最大18W", "1 C 5 V 3 A", "1 C 20 V 2.25 A", "2 C max 45 W", "3 A 5 V 3 A", "3 A 9 V 2 A", "4 A max 18 W")]
    [InlineData("USB-C: 5V 3A, 9V 3A\n• Max. 27W", "1 C 5 V 3 A", "1 C 9 V 3 A", "2 C max 27 W")]
    [InlineData("USB-C: 5V 3A, 20V 2.25A\nUSB-A: 5V 3A, 9V 2A\nMax output: 45W", "1 C 5 V 3 A", "1 C 20 V 2.25 A", "2 A 5 V 3 A", "2 A 9 V 2 A", "3 total 45 W")]

    // Two equal ports: the last one's, or the product's?
    [InlineData("USB-C1: 5V 3A, 20V 3.25A\nUSB-C2: 5V 3A, 20V 3.25A\nMax. 65W", "1 C1 5 V 3 A", "1 C1 20 V 3.25 A", "2 C2 5 V 3 A", "2 C2 20 V 3.25 A")]

    // What is above could not be read: it may be of that port.
    [InlineData("USB-C\nblorp 5V/9V\nMax output: 45W\nUSB-A: 5V 2A", "4 A 5 V 2 A")]
    public void MaximumOnItsOwnLine_IsOfThePortAbove(string text, params string[] statements) => Read(text).Should().Equal(statements);

    [Theory]
    [InlineData("使用ポート|上限\nC1のみ|100W\nC1とC2|65W／30W", "2 C1 max 100 W", "3 together C1+C2 = C1 65 W, C2 30 W")]
    [InlineData("Ports in use | Power\nC1 only | 65W\nC1 + C2 | 45W / 20W", "2 C1 max 65 W", "3 together C1+C2 = C1 45 W, C2 20 W")]

    // No row says that it is of one port alone; a row has fewer values than ports.
    [InlineData("Ports in use | Power\nC1 | 65W\nC1 + C2 | 45W / 20W")]
    [InlineData("Ports | Power\nC1 alone | 65W\nC1, C2 | 65W")]
    public void RowsOfPortsInUse_AreCombinations(string text, params string[] statements) => Read(text).Should().Equal(statements);

    [Theory]
    [InlineData("① USB-C1 5V/3A 20V/3A\n② USB-A 5V/2.4A\n①＋② 45W＋12W", "1 C1 5 V 3 A", "1 C1 20 V 3 A", "2 A 5 V 2.4 A", "3 together C1+A = C1 45 W, A 12 W")]
    [InlineData("① USB-C1 5V/3A\n① USB-A 5V/2.4A\n①＋② 45W＋12W", "1 C1 5 V 3 A", "2 A 5 V 2.4 A")]
    public void CircledNumbers_StandForPorts(string text, params string[] statements) => Read(text).Should().Equal(statements);

    // A word of caution beside a power that is said of several ports, or of the most, takes no line away without a mark.
    [Theory]
    [InlineData("注意：同時使用時は合計45W", true)]
    [InlineData("最大65W（使用環境により異なります）", true)]
    [InlineData("Do not use above 65W", false)]
    [InlineData("注意：高温になります", false)]
    public void CautionBesideARating_IsMarked(string line, bool isUnread) =>
        LineReading.UnreadLines(LabelReader.Read(line + "\nUSB-C: 5V 3A")).Contains(1).Should().Be(isUnread);

    // The amperes in front are those of the volts behind them; "5 V max. 3 A / 9 V" has them behind.
    [Theory]
    [InlineData("USB-A: 3A/5V, 2A/9V, 1.5A/12V", "1 A 5 V 3 A", "1 A 9 V 2 A", "1 A 12 V 1.5 A")]
    [InlineData("USB-A: 3A/5V 2A/9V", "1 A 5 V 3 A", "1 A 9 V 2 A")]
    [InlineData("USB-A: 5V (3A), 9V (2A)", "1 A 5 V 3 A", "1 A 9 V 2 A")]
    [InlineData("USB-A: 5V 3A/9V 2A", "1 A 5 V 3 A", "1 A 9 V 2 A")]
    [InlineData("USB-A: 5V=3A/9V=2A", "1 A 5 V 3 A", "1 A 9 V 2 A")]
    [InlineData("USB-A: 5V max. 3A / 9V max. 2A", "1 A 5 V 3 A", "1 A 9 V 2 A")]
    [InlineData("5V⎓8A (2.4A max per port)")]
    public void AmperesInFront_AreOfTheVoltsBehind(string text, params string[] statements) => Read(text).Should().Equal(statements);

    [Theory]
    [InlineData("Output voltage | Output current | Output power | Average efficiency\n5.0V | 3.0A | 15.0W | 82.1%", "2 OUT 5 V 3 A", "2 AverageEfficiency 82.1 %")]
    [InlineData("Port | Voltage | Current\nC1 | 5V | 3A\n | 9V | 3A\nA | 5V | 2.4A", "2 C1 5 V 3 A", "3 C1 9 V 3 A", "4 A 5 V 2.4 A")]
    [InlineData("额定输出……5V⎓3A", "1 OUT 5 V 3 A")]
    [InlineData("Output......5V⎓3A", "1 OUT 5 V 3 A")]
    [InlineData("输λ：100-240V~ 50/60Hz 1.2A", "1 input AC 100-240 V 1.2 A 50/60 Hz")]
    [InlineData("Output (USB-A1, USB-A2): 5V⎓3A", "1 A1 5 V 3 A", "1 A2 5 V 3 A")]
    [InlineData("人力資源部 5V 3A")]
    public void FormsOfSheets_AreRead(string text, params string[] statements) => Read(text).Should().Equal(statements);

    private static string[] Read(string text) => [.. LineReading.Statements(LabelReader.Read(text)).Order(LineOrder)];

    // As printed; within a line as the reader has them.
    private static readonly Comparer<string> LineOrder = Comparer<string>.Create(static (one, other) => one[0].CompareTo(other[0]));
}
