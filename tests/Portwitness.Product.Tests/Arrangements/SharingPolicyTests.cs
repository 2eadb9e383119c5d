using Portwitness.Analysis.Evidence;
using Portwitness.Product.Arrangements;

namespace Portwitness.Product.Tests.Arrangements;

/// <summary>
/// Synthetic products of every sharing policy, in both attach orders. What a policy is called is common practice, no source; the powers
/// are volts times amperes of the lists.
/// </summary>
public class SharingPolicyTests
{
    private const string Watts65 = "5V 3A, 9V 3A, 15V 3A, 20V 3.25A";
    private const string Watts45 = "5V 3A, 9V 3A, 15V 3A, 20V 2.25A";
    private const string Watts30 = "5V 3A, 9V 3A, 15V 2A";
    private const string Watts20 = "5V 3A, 9V 2.22A";
    private const string Watts15 = "5V 3A";

    // Kind; C1 alone, first, second; C2 alone, first, second; how long VBUS of each is away when it is first.
    public static TheoryData<SharingKind, string[], string[], int, int, string> Policies => new()
    {
        { SharingKind.NoSharing, [Watts65, Watts65, Watts65], [Watts30, Watts30, Watts30], 0, 0, "No sharing" },
        { SharingKind.FixedSplit, [Watts65, Watts45, Watts45], [Watts30, Watts20, Watts20], 0, 37, "Fixed split" },
        { SharingKind.EqualSplit, [Watts65, Watts30, Watts30], [Watts65, Watts30, Watts30], 212, 213, "Equal split" },
        { SharingKind.FirstAttachedFirst, [Watts65, Watts45, Watts20], [Watts65, Watts45, Watts20], 1999, 0, "attached first is offered more" },
        { SharingKind.LastAttachedFirst, [Watts65, Watts20, Watts45], [Watts65, Watts20, Watts45], 500, 2, "attached last is offered more" },
        { SharingKind.FiveVoltPool, [Watts65, Watts15, Watts15], [Watts30, Watts15, Watts15], 1234, 801, "5 V pool" },
        { SharingKind.ByAttachOrder, [Watts65, Watts45, Watts20], [Watts30, Watts15, Watts20], 3, 2, "no regular way" },
    };

    [Theory]
    [MemberData(nameof(Policies))]
    public void Policy_IsNamed_AndInterruptionsToTheMillisecond(
        SharingKind kind, string[] c1, string[] c2, int outOfC1, int outOfC2, string words)
    {
        ProductAnalysis analysis = PortsTogether.Check(
            "", PortsTogether.BothOrders(new(c1[0], c1[1], c1[2]), new(c2[0], c2[1], c2[2]), outOfC1, outOfC2));

        SharingPolicy sharing = analysis.Arrangements!.Sharing!;
        (sharing.Kind, sharing.Verdict).Should().Be((kind, Verdict.Holds), sharing.Sentence.Text());
        sharing.Sentence.Should().Contain(words);
        sharing.Evidence.Should().ContainAll("C1 alone", "C2 alone", "C1, then C2", "C2, then C1");
        Interrupted(analysis, "C1").Should().Be(outOfC1);
        Interrupted(analysis, "C2").Should().Be(outOfC2);
        analysis.Of("neighbour-interrupted").Should().HaveCount((outOfC1 > 0 ? 1 : 0) + (outOfC2 > 0 ? 1 : 0))
            .And.NotContain(finding => finding.Verdict != Verdict.Fails);
        analysis.Of("attach-order-matters").Any().Should().Be(
            kind is SharingKind.FirstAttachedFirst or SharingKind.LastAttachedFirst or SharingKind.ByAttachOrder);
    }

    // R3.2v1.1, 10.2: rounded volts and amperes may make a watt of difference.
    [Theory]
    [InlineData("15V 1.94A", SharingKind.NoSharing)]
    [InlineData("15V 1.93A", SharingKind.FixedSplit)]
    public void LessByAWatt_IsRounding(string second, SharingKind kind)
    {
        string list = "5V 3A, 9V 3A, " + second;
        ProductAnalysis analysis = PortsTogether.Check(
            "", PortsTogether.BothOrders(new(Watts65, Watts65, Watts65), new(Watts30, list, list), 0, 0));

        analysis.Arrangements!.Sharing!.Kind.Should().Be(kind);
    }

    [Fact]
    public void OneOrderOnly_DoesNotTellASplitFromAPriority()
    {
        PortCapture[] all = PortsTogether.BothOrders(new(Watts65, Watts45, Watts45), new(Watts30, Watts30, Watts20), 0, 0);
        ProductAnalysis analysis = PortsTogether.Check("", all[0], all[1], new PortCapture("C2", PortsTogether.Alone("C2", Watts30)));

        SharingPolicy sharing = analysis.Arrangements!.Sharing!;
        (sharing.Kind, sharing.Verdict).Should().Be((SharingKind.Unknown, Verdict.CannotTell));
        sharing.Sentence.Should().Contain("only one order was captured");
        sharing.NextStep.Should().Contain("C2").And.Contain("C1");
    }

    [Fact]
    public void WithoutAPortAlone_ItCannotBeTold()
    {
        PortCapture[] all = PortsTogether.BothOrders(new(Watts65, Watts45, Watts45), new(Watts30, Watts30, Watts20), 0, 0);

        PortsTogether.Check("", all[0], all[1]).Arrangements!.Sharing!.Sentence.Should().Contain("C2 alone was not captured");
    }

    [Fact]
    public void BesideAPlainCable_FewerWattsMayBeTheCable()
    {
        Offers c1 = new("5V 3A, 9V 3A, 15V 3A, 20V 5A", "5V 3A, 9V 3A, 15V 3A, 20V 3A", "5V 3A, 9V 3A, 15V 3A, 20V 3A");
        PortCapture[] all = PortsTogether.BothOrders(c1, new(Watts30, Watts30, Watts30), 0, 0);
        all[3] = all[3] with { Text = all[3].Text.Replace("cable: 5A captive", "cable: 3A detachable", StringComparison.Ordinal) };

        SharingPolicy sharing = PortsTogether.Check("", all).Arrangements!.Sharing!;

        sharing.Kind.Should().Be(SharingKind.Unknown);
        sharing.Sentence.Should().Contain("may offer more than was captured");
    }

    [Fact]
    public void SinglePorts_SayNothingOfSharing()
    {
        SharingPolicy sharing = PortsTogether.Check(
            "", new PortCapture("C1", PortsTogether.Alone("C1", Watts65)), new PortCapture("C2", PortsTogether.Alone("C2", Watts30))).Arrangements!.Sharing!;

        (sharing.Kind, sharing.Verdict).Should().Be((SharingKind.Unknown, Verdict.CannotTell));
        sharing.NextStep.Should().NotBeEmpty();
    }

    // Both labels and lists are the same in the printed order; nothing else is wrong with it.
    [Fact]
    public void OnlyTheAttachOrder_RevealsTheFault()
    {
        const string Label = "USB-C1: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3.25A (65W Max)\nUSB-C2: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3.25A (65W Max)\nC1+C2: 45W+20W\nTotal Output: 65W";
        PortCapture[] all = PortsTogether.BothOrders(
            new(Watts65, Watts45, Watts20), new(Watts65, "5V 3A, 9V 3A, 15V 3A, 20V 2.25A", Watts20), 0, 0);
        PortCapture[] printed = [all[0], all[1], new PortCapture("C2", PortsTogether.Alone("C2", Watts65))];

        ProductAnalysis inOrder = PortsTogether.Check(Label, printed);
        ProductAnalysis both = PortsTogether.Check(Label, [.. printed, all[2], all[3]]);

        inOrder.Accusations().Should().BeEmpty();
        inOrder.Verdict.Should().NotBe(Verdict.Fails);
        both.Accusations().Select(finding => finding.Rule).Distinct().Should().Equal("combination-power-differs");
        both.Accusations().Should().Contain(finding => finding.Port == "C1" && finding.Detail.Text().Contains("attached C2, then C1", StringComparison.Ordinal));
        both.Verdict.Should().Be(Verdict.Fails);
    }

    private static long Interrupted(ProductAnalysis analysis, string port) =>
        analysis.Arrangements!.Transitions.Single(one => one.Attached && one.Port == port).Interruption is { } lost
            ? (lost.EndUs!.Value - lost.StartUs + 500) / 1000 : 0;
}
