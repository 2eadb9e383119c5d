using Portwitness.Contracts.V1;
using Portwitness.Tests;

namespace Portwitness.Service.Tests;

/// <summary>Ports together, other signalling, logs of power and parts over a real channel, from products of the demo.</summary>
public sealed class MeasuredProductTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Fact]
    public async Task PortsTogether_AreInTheReport()
    {
        ProductReport report = await service.Client.CheckDemoAsync("shared-tb65");

        report.Sharing.Policy.Should().Be("first attached first");
        (report.Sharing.CombinationsPrinted, report.Sharing.CombinationsCaptured, report.Sharing.CombinationsHold).Should().Be((1, 1, 0));
        report.Arrangements.Should().HaveCount(6);
        PortInArrangement second = report.Arrangements.Single(row => row.Port == "C1" && row.InUse.SequenceEqual(["C2", "C1"]));
        (second.OfferedMw, second.AloneMw, second.Contract.VoltageMv).Should().Be((19_980, 65_000, 9_000));
        second.Changes.Select(change => change.Kind).Should().Equal("reduced", "lost", "lost");

        NeighbourChange attached = report.NeighbourChanges.Single(change => change.Interruption is not null);
        (attached.Port, attached.Neighbour, attached.Event, attached.OfferedBeforeMw, attached.OfferedAfterMw)
            .Should().Be(("C1", "C2", "attach", 65_000, 45_000));
        ((attached.Interruption.EndUs - attached.Interruption.StartUs) / 1000, attached.Interruption.DeepestMv).Should().Be((212, 310));
    }

    [Fact]
    public async Task Signalling_AndWhatItBacks_AreInTheReport()
    {
        ProductReport report = await service.Client.CheckDemoAsync("shared-tb65");

        PortSignalling port = report.Signalling.Single(one => one.Port == "A");
        port.Words.Select(word => (word.Word, word.Answers, word.LimitMa)).Should().Equal(("bc1.2-dcp", true, 1500), ("ufcs", false, 0));
        report.RatingBackings.Single().By.Should().Be("bc1.2-dcp");
    }

    // 2 A for 2 h 48 min are 5600 mAh, at 4.985 V a little less than 28 Wh.
    [Fact]
    public async Task Logs_AreAskedForAfterTheCaptures()
    {
        List<string> asked = [];
        ProductReport report = await service.Client.CheckDemoAsync("weak-tp10", file =>
        {
            asked.Add(file);
            return File.ReadAllText(Repository.PathOf("captures", "weak-tp10", file));
        });

        asked.Should().Equal("c.capture.jsonl", "discharge-5v2a.csv", "discharge-9v2a.csv");
        PowerLog log = report.PowerLogs[0];
        (log.ChargeUah.Value / 1000, log.EnergyUwh.Value / 10_000).Should().Be((5600, 2791));
        log.ChargeUah.Least.Should().BeLessThan(log.ChargeUah.Value);
        report.Parts.Should().HaveCount(2).And.Contain(part => part.Part == "Q2" && part.RatedMv == 12_000);
    }

    // The label says which ports there are, so that it is needed before the first capture.
    [Fact]
    public async Task LabelInAFile_IsAskedForFirst()
    {
        List<string> asked = [];
        ProductReport report = await service.Client.CheckAsync(
            need =>
            {
                asked.Add(need);
                return [Checking.Data(need == "label.txt" ? "USB-C: 5V⎓3A" : "0x0801912C"), Checking.End];
            },
            Checking.OfProduct("label: \"@label.txt\"\ncaptures:\n  - {file: c.words}\n"));

        asked.Should().Equal("label.txt", "c.words");
        report.Label.Text.Should().Be("USB-C: 5V⎓3A");
        report.Ports.Single().Port.Should().Be("C");
        report.Inputs.Select(static input => input.File).Should().Equal("product.yaml", "label.txt", "c.words");
    }

    [Fact]
    public async Task MissingLog_IsSaidAndTheRestJudged()
    {
        ProductReport report = await service.Client.CheckDemoAsync(
            "weak-tp10", file => file.EndsWith("5v2a.csv", StringComparison.Ordinal) ? null : File.ReadAllText(Repository.PathOf("captures", "weak-tp10", file)));

        report.Faults.Should().ContainSingle().Which.Detail.Should().Contain("discharge-5v2a.csv").And.Contain("not there");
        report.PowerLogs.Select(log => log.File).Should().Equal("discharge-9v2a.csv");
    }

    [Fact]
    public async Task LogsCountAsFiles_WhereALimitIsReached()
    {
        string many = "product: x\ncaptures: []\ndischarges:\n"
            + string.Concat(Enumerable.Range(1, 5).Select(n => $"  - {{port: C, at: 5V 2A, file: d{n}.csv}}\n"));

        (await RefusedCall.FieldsOfAsync(() => service.Client.CheckAsync(_ => [], Checking.OfProduct(many)))).Should().Equal("options.product.text");
    }
}
