using System.Text;
using Portwitness.Analysis;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.Following.Contracts;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Product.Arrangements;

namespace Portwitness.Product.Tests.Arrangements;

/// <summary>A capture is cut where the arrangement or the offer changes: lists, requests and measurements stay with their own piece.</summary>
public class CapturePieceTests
{
    private const string Shared =
        "attach, advertise alone, contract 4 at 3.25A, pause 400ms, measure 20V 3.2A every 10ms for 1s, attach C2, measure 20V 1.2A every 10ms for 500ms, "
        + "advertise shared, contract 4 at 2.25A, pause 400ms, measure 20V 2.2A every 10ms for 1s, detach C2, measure 20V 2.1A every 10ms for 1s";

    [Fact]
    public void Neighbour_CutsTheCapture()
    {
        CapturePiece[] pieces = Pieces(Shared);

        pieces.Select(Text).Should().Equal(
            "C1: 20 V 3.25 A; 3.25 A up to 3.2 A",
            "C1+C2: 20 V 3.25 A; 3.25 A up to 1.2 A",
            "C1+C2: 20 V 2.25 A; 2.25 A up to 2.2 A",
            "C1: 20 V 2.25 A; 2.25 A up to 2.1 A");
        pieces.Select(static piece => (piece.Periods.Single().Start, piece.Periods.Single().Port)).Should().Equal(
            (PieceStart.Capture, ""), (PieceStart.Attach, "C2"), (PieceStart.List, ""), (PieceStart.Detach, "C2"));
        pieces.Zip(pieces.Skip(1)).Should().OnlyContain(static pair => pair.First.Periods[0].UntilUs == pair.Second.Periods[0].FromUs);
    }

    // What a port gave after its neighbour had gone is not what it gave from the list that it had alone.
    [Fact]
    public void Row_HasTheContractOfItsOwnList()
    {
        ProductAnalysis analysis = PortsTogether.Check("", new PortCapture("C1", Script(Shared)));

        analysis.Arrangements!.Rows.Select(static row => (row.Offer.InUse.Length, row.Contract!.Value.Current!.Value.Milliamperes, row.Measured!.Value.Milliwatts))
            .Should().Equal((1, 3_250, 64_000), (2, 2_250, 44_000));
    }

    [Fact]
    public void AnotherList_CutsTheCapture_AndRequestsStayWithTheirs()
    {
        CapturePiece[] pieces = Pieces(
            "attach, advertise alone, contract 4 at 3.25A, pause 400ms, measure 20V 3.2A every 10ms for 1s, advertise shared, contract 4 at 2.25A, pause 400ms, measure 20V 2.2A every 10ms for 1s");

        pieces.Select(Text).Should().Equal("C1: 20 V 3.25 A; 3.25 A up to 3.2 A", "C1: 20 V 2.25 A; 2.25 A up to 2.2 A");
    }

    // Alert, Source_Info and Hard Reset: R3.2v1.1, Tables 6.47 and 6.51, 6.8.3.
    [Theory]
    [InlineData("send source Alert 0x18000000, pause 2s, advertise shared", @"^2 s after an Alert \(Operating Condition Change, OTP Event\) in message \d+$")]
    [InlineData("send source Alert 0x08000000, pause 1s, send source Alert 0x02100000, pause 2s, advertise shared", @"^2 s after an Alert \(Battery Status Change\) in message \d+$")]
    [InlineData("send sink Get_Source_Info, send source Source_Info 0x0041282D, pause 1s, advertise shared", @"^1 s after a Source_Info with 40 W of 65 W at present in message \d+$")]
    [InlineData("send sink Get_Source_Info, send source Source_Info 0x00414141, pause 1s, advertise shared", "^$")]
    [InlineData("get-source-cap shared", @"^3 ms after Get_Source_Cap in message \d+$")]
    [InlineData("send sink Get_Source_Cap, pause 3s, advertise shared", "^$")]
    [InlineData("hard-reset, advertise shared", @"^1 s after a Hard Reset$")]
    [InlineData("send sink Alert 0x08000000, pause 1s, advertise shared", "^$")]
    [InlineData("pause 1s, advertise shared", "^$")]
    public void WhatCameBeforeAnotherList_IsSaid(string steps, string after)
    {
        CapturePiece[] pieces = Pieces($"attach, send source Alert 0x04000000, advertise alone, contract 4 at 3.25A, pause 1s, {steps}, contract 4 at 2.25A");

        pieces.Should().HaveCount(2);
        pieces[0].Periods[0].After.IsEmpty.Should().BeTrue();
        PhraseText.Of(pieces[1].Periods[0].After).Should().MatchRegex(after);
    }

    [Fact]
    public void WhatComesAgain_GoesOnWithItsPiece()
    {
        CapturePiece[] pieces = Pieces("attach, advertise alone, contract 4 at 3.25A, pause 1s, detach, pause 1s, attach, advertise alone, contract 4 at 3A");

        CapturePiece piece = pieces.Should().ContainSingle().Subject;
        piece.Periods.Should().HaveCount(2);
        piece.Contracts.Select(static contract => contract.Current!.Value.Milliamperes).Should().Equal(3_250, 3_000);
    }

    // An EPR list adds to the SPR list that it begins with (R3.2v1.1, 6.5.15.1); the answer to Get_Source_Cap takes nothing away.
    [Fact]
    public void EprList_IsMoreOfTheSameOffer()
    {
        CaptureAnalysis capture = CaptureRun.Text(Encoding.UTF8.GetString(Synthesised.Bytes(
            """
            port: C1
            edition: R3.2
            cable: EPR captive
            source: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W]
            steps: [attach, advertise, contract 4 at 5A, enter-epr at 140W, contract 8 at 5A, get-source-cap, keep-alive]
            """)));

        CapturePiece piece = CapturePieces.Of(capture).Should().ContainSingle().Subject;
        piece.Offered!.Objects.Length.Should().BeGreaterThan(7);
        piece.Contracts.Should().HaveCount(2);
    }

    [Fact]
    public void EveryListAndEveryRequest_IsInAPiece_WhateverTheCapture()
    {
        foreach (string steps in new[]
        {
            Shared, "attach, request 0x43051545, accept", "attach, advertise alone", "attach, advertise alone, detach, pause 1s, request 0x43051545, accept",
            "attach, attach C2, advertise alone, detach C2, request 0x43051545, accept, advertise shared",
        })
        {
            CaptureAnalysis capture = Analyse(steps);
            CapturePiece[] pieces = [.. CapturePieces.Of(capture)];

            pieces.SelectMany(static piece => piece.Contracts).Select(static contract => contract.MessageIndex).Distinct()
                .Should().BeEquivalentTo(capture.Contracts.Select(static contract => contract.MessageIndex), steps);
            pieces.Select(static piece => piece.Offered).OfType<Advertisement>().Select(static list => list.ListText()).Distinct().Should().BeEquivalentTo(
                capture.Advertisements.Select(static list => list.ListText()).Distinct(), steps);
        }
    }

    [Fact]
    public void NeighboursThatComeAndGo_MakeTwoPieces()
    {
        CapturePiece[] pieces = Pieces("attach, advertise alone, contract 4 at 3.25A, repeat 3000: [attach C2, pause 5ms, detach C2, pause 5ms]");

        pieces.Should().HaveCount(2);
    }

    // Another capture of the same clock may tell of a neighbour after everything was added up.
    [Fact]
    public void Slices_AreToldApartByTime_AndAreBounded()
    {
        MeasuredSlices slices = new();
        for (long timeUs = 0; timeUs < 100_000_000; timeUs += 10_000)
        {
            slices.Add(timeUs, 20_000, timeUs < 50_000_000 ? 3_000 : 1_000);
        }

        slices.Whole.Should().Match<MeasuredPower>(static whole => whole.Samples == 10_000 && whole.MostCurrent!.Value.Milliamperes == 3_000);
        slices.Within([(0, 50_000_000)])!.MostCurrent!.Value.Milliamperes.Should().Be(3_000);
        slices.Within([(51_200_000, long.MaxValue)])!.MostCurrent!.Value.Milliamperes.Should().Be(1_000);
        slices.Within([(50_000_000, 50_010_000)]).Should().BeNull("a slice that reaches beyond is of neither side");
    }

    [Fact]
    public void Slices_BeginAnewWhereTheyAreCut()
    {
        MeasuredSlices slices = new();
        slices.Add(0, 20_000, 3_000);
        slices.Cut();
        slices.Add(10, 20_000, 1_000);

        slices.Within([(10, 20)])!.MostCurrent!.Value.Milliamperes.Should().Be(1_000);
        slices.Within([(0, 10)])!.MostCurrent!.Value.Milliamperes.Should().Be(3_000);
        foreach (int at in Enumerable.Range(1, 10_000))
        {
            slices.Cut();
            slices.Add(1_000 * at, 20_000, 500);
        }

        slices.Whole!.Samples.Should().Be(10_002);
    }

    private static string Text(CapturePiece piece) =>
        $"{string.Join('+', piece.InUse)}: {piece.Offered!.Objects[^1].ToText()["fixed ".Length..]}; "
        + string.Join(", ", piece.Contracts.Select(static contract => $"{contract.Current} up to {contract.Measured?.MostCurrent}"));

    private static CapturePiece[] Pieces(string steps) => [.. CapturePieces.Of(Analyse(steps))];

    private static CaptureAnalysis Analyse(string steps) => CaptureRun.Text(Encoding.UTF8.GetString(Synthesised.Bytes(Script(steps))));

    private static string Script(string steps) =>
        $$"""
        port: C1
        in_use: [C1]
        cable: 5A captive
        measured_at: source
        accuracy: {vbus_mv: 10, ibus_ma: 10}
        source:
          alone: [5V 3A, 9V 3A, 15V 3A, 20V 3.25A]
          shared: [5V 3A, 9V 3A, 15V 3A, 20V 2.25A]
        steps: [{{steps}}]
        """;
}
