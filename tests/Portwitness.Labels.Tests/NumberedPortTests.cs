namespace Portwitness.Labels.Tests;

/// <summary>Numbers and places of ports with one bare name. The lines are invented after the forms of the trade (common practice, no source).</summary>
public sealed class NumberedPortTests
{
    [Theory]
    [InlineData("Port 1: USB-C 45W\nPort 2: USB-A 18W", "1 C max 45 W; 2 A max 18 W", "")]
    [InlineData("Port 1: USB-C 5V⎓3A\nPort 2: USB-C 9V⎓2A", "1 C1 5 V 3 A; 2 C2 9 V 2 A", "")]
    [InlineData("Output 1 (USB-C): 5V⎓3A\nOutput 2 (USB-A): 5V⎓2A\nUSB-A: 10W Max", "1 C 5 V 3 A; 2 A 5 V 2 A; 3 A max 10 W", "")]
    // Whether the bare name is that port or another one, nobody can say: it is marked.
    [InlineData("USB-C: 5V⎓3A 9V⎓3A\nOutput 2 (USB-C): 5V⎓3A", "2 C2 5 V 3 A", "1")]
    [InlineData("Output 2 (USB-C): 5V⎓3A\nUSB-C: 9V⎓3A", "1 C2 5 V 3 A", "2")]
    [InlineData("USB-A 1 and 2: 5V⎓2.4A each", "1 A1 5 V 2.4 A; 1 A2 5 V 2.4 A", "")]
    [InlineData("USB-C 1/2: 20W Max", "1 C1 max 20 W; 1 C2 max 20 W", "")]
    public void Number_IsOfOnePort(string text, string read, string unreadLines)
    {
        Label label = LabelReader.Read(text);

        string.Join("; ", LineReading.Statements(label).Order(StringComparer.Ordinal)).Should().Be(read);
        string.Join(' ', LineReading.UnreadLines(label).Order()).Should().Be(unreadLines);
    }

    // Of contradicting maxima the second is not read, and stays visible.
    [Fact]
    public void RowOfMaximaThatContradict_IsUnread()
    {
        Label label = LabelReader.Read("C1: 100W\nC2: 20W\nC1, C2: 65W, 20W");

        LineReading.UnreadLines(label).Should().Equal(3);
        LineReading.Statements(label).Should().NotContain(static one => one.Contains("65 W", StringComparison.Ordinal));
    }

    // A direction behind a port's name is of that line; in front of it, it may be of the ports below, too.
    [Theory]
    [InlineData("USB-C1 Input: 5V⎓3A\nUSB-C1: 9V⎓2.22A", "1 input C1 5 V 3 A; 2 C1 9 V 2.22 A", "")]
    [InlineData("Input: USB-C1: 5V⎓3A\nUSB-C1: 9V⎓2.22A", "1 input C1 5 V 3 A; 2 input C1 9 V 2.22 A", "")]
    public void LineBelowAnInput_HasTheDirectionThatIsSaidOfIt(string text, string read, string unreadLines) => Number_IsOfOnePort(text, read, unreadLines);

    [Theory]
    [InlineData("Input: DC 12V/24V", "1 input 12 V; 1 input 24 V")]
    [InlineData("Input: 12/24V DC", "1 input 12 V; 1 input 24 V")]
    [InlineData("Input voltage: 100-240V~\nInput current: 1.5A\nFrequency: 50/60Hz", "1 input AC 100-240 V 1.5 A 50/60 Hz")]
    public void Input_IsReadInPieces(string text, string read) => string.Join("; ", LineReading.Statements(LabelReader.Read(text))).Should().Be(read);

    // "In total" behind a rating says that it is not of one port.
    [Fact]
    public void RatingWithATotalBehindIt_IsOfNoPort() =>
        LineReading.Statements(LabelReader.Read("USB-A1/A2 output: 5V⎓3.4A (total blorp)")).Should().NotContain(static one => one.Contains("A1 5 V", StringComparison.Ordinal));
}
