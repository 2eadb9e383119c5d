using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Tests;

/// <summary>The table of devices in a product's report.</summary>
public sealed class DeviceMatrixTextTests
{
    [Fact]
    public void Cells_AreMarkedByWhatTheDeviceMisses()
    {
        string text = Write(Row(
            "C1", ["C1"], Cell(65_000, Verdict.Holds, Verdict.Holds), Cell(45_000, Verdict.Fails, Verdict.Holds),
            Cell(20_000, Verdict.Fails, Verdict.Fails), Cell(15_000, Verdict.CannotTell, Verdict.CannotTell)));

        text.Should().Contain("""
              device  wish  C1
              d0      65 W  65 W
              d1      65 W  45 W *
              d2      65 W  20 W !
              d3      65 W  15 W ?
              * less than it wishes; ! less than it needs; ? less than it wishes, where more may be offered
            """.ReplaceLineEndings("\n"));
    }

    [Fact]
    public void Columns_SayPortAndArrangement_AndFileWhereThatIsNotEnough()
    {
        string text = Write(
            Row("C1", ["C1"], Cell(65_000, Verdict.Holds, Verdict.Holds)), Row("C1", ["C2", "C1"], Cell(45_000, Verdict.Fails, Verdict.Holds)),
            Row("C1", ["C2", "C1"], Cell(0, Verdict.Fails, Verdict.Fails)));

        text.Should().Contain("C1 (f)").And.Contain("C1 of C2+C1 (f)").And.Contain("none !");
    }

    [Fact]
    public void WideMatrix_IsSetInBlocks()
    {
        string text = Write([.. Enumerable.Range(1, 150).Select(n => Row($"C{n}", [$"C{n}", "X"], Cell(65_000, Verdict.Holds, Verdict.Holds)))]);

        text.Split('\n').Should().OnlyContain(line => line.Length <= 100);
        text.Split('\n').Count(line => line.StartsWith("  device ", StringComparison.Ordinal)).Should().BeGreaterThan(5);
        text.ReplaceLineEndings(" ").Replace("   ", " ", StringComparison.Ordinal).Should().Contain("50 more arrangements");
    }

    private static DeviceMatrixCell Cell(int power, Verdict wish, Verdict minimum)
    {
        DeviceMatrixCell cell = new() { PowerMw = power, GetsWish = wish, GetsMinimum = minimum };
        if (power > 0)
        {
            cell.ObjectPosition = 1;
        }

        return cell;
    }

    private static DeviceMatrixRow Row(string port, string[] inUse, params DeviceMatrixCell[] cells) =>
        new() { Port = port, InUse = { inUse }, File = "f", Cells = { cells } };

    private static string Write(params DeviceMatrixRow[] rows)
    {
        DeviceMatrix matrix = new() { Policy = new SinkPolicy { Name = "p", Text = "t" }, Rows = { rows } };
        matrix.Sinks.AddRange(rows[0].Cells.Select((_, index) => new Sink { Name = $"d{index}", WishMw = 65_000 }));
        using StringWriter writer = new() { NewLine = "\n" };
        ProductText.Write(writer, new ProductReport { Product = "Tarnholt TH-65", Devices = matrix }, TextStyle.Plain);
        return writer.ToString();
    }
}
