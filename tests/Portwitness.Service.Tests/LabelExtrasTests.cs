using Portwitness.Contracts.V1;

namespace Portwitness.Service.Tests;

/// <summary>What a label has besides ratings of USB ports, over the wire.</summary>
public sealed class LabelExtrasTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Fact]
    public async Task LabelWithEverything_KeepsItsPartsAndPlaces()
    {
        Label label = (await service.Client.ReadLabelAsync(new ReadLabelRequest
        {
            Text = """
                AC Output: 230V~ 50Hz 1.3A 300W
                USB-C Input: 5V⎓3A 9V⎓2A (18W Max)
                USB-C Output: 5V⎓3A PD 2OW
                Built-in cable: 5V⎓3A
                Wireless: 5W/15W
                C+Wireless: 15W+10W
                Battery: 1S2P 10000mAh 3.7V 37Wh
                Conversion efficiency: 90%
                """,
        })).Label;

        label.Unread.Should().BeEmpty();
        label.Outputs.Select(output => output.Port).Should().Equal("AC", "C", "Built-in cable");
        label.Outputs[0].Alternating.Should().Equal(new PrintedAlternating
        {
            MinVoltageMv = 230_000, MaxVoltageMv = 230_000, CurrentMa = 1300, PowerMw = 300_000, FrequencyHz = { 50 }, Line = 1, Column = 12,
        });
        label.Outputs[1].ProtocolMaxima.Should().Equal(
            new PrintedProtocolMaximum { Protocol = "PD", PowerMw = 20_000, Line = 3, Column = 24 });
        label.Outputs[2].CaptiveCable.Should().BeTrue();
        label.InputMaxima.Should().Equal(new PrintedInputMaximum { Port = "C", PowerMw = 18_000, Line = 2, Column = 27 });
        label.Pads.Should().Equal(new PrintedPad { Name = "Wireless", PowerMw = { 5000, 15_000 }, Line = 5, Column = 1 });
        label.Battery.SeriesCells.Should().Be(1);
        label.Battery.ParallelCells.Should().Be(2);
        label.Performance.Should().Equal(new PrintedPerformance
        {
            Kind = "conversion_efficiency", PartsPerMillion = 900_000, Line = 8, Column = 1, Text = "Conversion efficiency: 90%",
        });
        label.Repairs.Should().Equal(
            new PrintedRepair { Kind = "characters", Line = 3, Column = 24, Before = "2OW", After = "20W" });
        label.Findings.Should().Contain(finding => finding.Rule == "carriage-band" && finding.LabelLine == 7);
        label.Cautions.Should().Contain(caution => caution.Contains("Lithium packs", StringComparison.Ordinal));
    }
}
