using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Signalling;
using Portwitness.Product.Tests.Arrangements;

namespace Portwitness.Product.Tests;

/// <summary>
/// What ports answer to besides USB PD. Limits: USB BC 1.2 (IDEV_CHG 1.5 A), USB 2.0 (500 mA), USB 3.x (900 mA) and USB Type-C (1.5 A,
/// 3.0 A) as makers of port controllers restate them; what a bias of D+ and D− stands for is common practice, no source.
/// </summary>
public class SignallingTests
{
    [Theory]
    [InlineData("bc1.2-sdp", SignallingKind.BatteryCharging, 900, LimitBasis.Confirmed)]
    [InlineData("bc1.2-cdp", SignallingKind.BatteryCharging, 1500, LimitBasis.Confirmed)]
    [InlineData("BC1.2-DCP", SignallingKind.BatteryCharging, 1500, LimitBasis.Confirmed)]
    [InlineData("type-c-1.5A", SignallingKind.TypeC, 1500, LimitBasis.Confirmed)]
    [InlineData("type-c-3A", SignallingKind.TypeC, 3000, LimitBasis.Confirmed)]
    [InlineData("type-c-default", SignallingKind.TypeC, 900, LimitBasis.Confirmed)]
    [InlineData("divider-2.7V-2.7V", SignallingKind.Divider, 2400, LimitBasis.CommonPractice)]
    [InlineData("divider-2.65V-2.74V", SignallingKind.Divider, 2400, LimitBasis.CommonPractice)]
    [InlineData("divider-2.0V-2.7V", SignallingKind.Divider, 1000, LimitBasis.CommonPractice)]
    [InlineData("divider-3.3V-3.3V", SignallingKind.Divider, null, LimitBasis.None)]
    [InlineData("ufcs", SignallingKind.Ufcs, null, LimitBasis.None)]
    [InlineData("ydt1591", SignallingKind.Ydt1591, null, LimitBasis.None)]
    [InlineData("divider-2.7V", SignallingKind.NonPublic, null, LimitBasis.None)]
    [InlineData("bunkcharge", SignallingKind.NonPublic, null, LimitBasis.None)]
    public void Word_HasItsKindAndLimit(string text, SignallingKind kind, int? milliamperes, LimitBasis basis)
    {
        SignallingWord word = SignallingWord.Read(text)!;

        (word.Kind, word.Limit, word.Basis, word.Denied).Should().Be(
            (kind, milliamperes is { } limit ? Current.FromMilliamperes(limit) : null, basis, false));
        SignallingWord.Read("no-" + text)!.Denied.Should().BeTrue();
    }

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("no-")]
    public void NoWord_IsNone(string text) => SignallingWord.Read(text).Should().BeNull();

    // One port of a label, and what it answers to: what its rating is told to be.
    [Theory]
    [InlineData("5V⎓1.5A", "bc1.2-dcp", "Holds", "")]
    [InlineData("5V⎓1.6A", "bc1.2-dcp", "CannotTell", "caution printed-rating-without-signalling")]
    [InlineData("5V⎓3A", "type-c-3A", "Holds", "")]
    [InlineData("5V⎓3A", "type-c-1.5A", "CannotTell", "caution printed-rating-without-signalling")]
    [InlineData("5V⎓0.9A", "bc1.2-sdp", "Holds", "")]
    // No source confirms what a bias stands for: it backs nothing, and accuses nobody.
    [InlineData("5V⎓2.4A", "divider-2.7V-2.7V", "CannotTell", "")]
    [InlineData("5V⎓2.4A", "bunkcharge", "CannotTell", "")]
    [InlineData("5V⎓2A 12V⎓1.5A", "bunkcharge", "CannotTell", "")]
    [InlineData("5V⎓2.4A", "no-ufcs", "CannotTell", "caution printed-rating-without-signalling")]
    [InlineData("5V⎓2A 9V⎓2A", "bc1.2-dcp", "CannotTell", "caution printed-rating-without-signalling")]
    public void Rating_IsTiedToWhatBacksIt(string rating, string word, string verdict, string finding)
    {
        ProductAnalysis analysis = Check($"USB-A: {rating}", $"A: [{word}]");

        analysis.Statements.Select(statement => statement.Verdict).Distinct().Should().Contain(Enum.Parse<Verdict>(verdict));
        analysis.Statements.Should().NotContain(statement => statement.Verdict == Verdict.Fails);
        Told(analysis).Should().Be(finding);
    }

    // The scheme's token is printed: what was asked for and does not answer contradicts it.
    [Theory]
    [InlineData("bkc", "")]
    [InlineData("BKC", "")]
    [InlineData("no-bkc", "mismatch printed-protocol-not-answered")]
    [InlineData("bc1.2-dcp", "caution printed-rating-without-signalling")]
    [InlineData("no-ufcs", "caution printed-rating-without-signalling")]
    public void PrintedProtocol_IsAskedFor(string word, string finding) =>
        Told(Check("USB-C: 5V⎓3A PD 15W, BKC 40W", $"C: [{word}, type-c-3A]")).Should().Be(finding);

    [Theory]
    [InlineData("A1: [bc1.2-dcp]\n  A2: [bc1.2-dcp]", "")]
    [InlineData("A1: [bc1.2-dcp]\n  A2: [BC1.2-DCP]", "")]
    [InlineData("A1: [bc1.2-dcp]\n  A2: [bc1.2-sdp]", "caution like-ports-signal-differently")]
    [InlineData("A1: [ufcs]\n  A2: [no-ufcs]", "caution like-ports-signal-differently")]
    // What was looked for at one of them only says nothing.
    [InlineData("A1: [ufcs, bc1.2-dcp]\n  A2: [bc1.2-dcp]", "")]
    public void LikePorts_AnswerAlike(string signalling, string finding) =>
        Told(Check("USB-A1: 5V⎓0.9A\nUSB-A2: 5V⎓0.9A", signalling), "like-ports-signal-differently").Should().Be(finding);

    [Fact]
    public void UnlikePorts_MayAnswerAsTheyLike() =>
        Told(Check("USB-A1: 5V⎓0.9A\nUSB-A2: 5V⎓0.5A", "A1: [bc1.2-dcp]\n  A2: [bc1.2-sdp]"), "like-ports-signal-differently").Should().BeEmpty();

    // Under a contract Rp says who may speak (R3.2v1.1, Table 5.13); beside others a port may answer to less.
    [Theory]
    [InlineData("attach, rp 3A", "type-c-3A")]
    [InlineData("attach, line bc1.2-dcp, rp 1.5A", "bc1.2-dcp type-c-1.5A")]
    [InlineData("attach, advertise, contract 1 at 3A, rp 1.5A", "")]
    [InlineData("attach, attach A, rp 1.5A", "")]
    [InlineData("attach, line no-ufcs", "no ufcs")]
    public void CapturesTellToo(string steps, string expected)
    {
        ProductAnalysis analysis = PortsTogether.Check("", new PortCapture(
            "C", $"port: C\nin_use: [C]\nsource: [5V 3A]\nsteps: [{steps}]\n"));

        string.Join(" ", analysis.Signalling.SelectMany(port => port.Words).Select(word => word.ToString()).Order(StringComparer.Ordinal)).Should().Be(expected);
    }

    private static ProductAnalysis Check(string label, string signalling) => PortsTogether.Check(
        $"product: x\nlabel: \"{label.Replace("\n", "\\n", StringComparison.Ordinal)}\"\nsignalling:\n  {signalling}\ncaptures: []\n", Array.Empty<byte[]>());

    private static string Told(ProductAnalysis analysis, string? rule = null) => string.Join(
        ", ", analysis.Findings.Where(finding => rule is null
                ? finding.Rule is "printed-rating-without-signalling" or "printed-protocol-not-answered" : finding.Rule == rule)
            .Select(finding => $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Rule}").Distinct());
}
