using System.Xml.Linq;
using Portwitness.Cli.Batches;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>Reports of a batch that cannot be written, are damaged, or lie in the folder of an earlier batch.</summary>
public sealed class BatchReportFileTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public BatchReportFileTests()
    {
        foreach ((string name, string words) in new[] { ("a", "0x0801912C"), ("b", "0x0002D12C"), ("c", "0x0801912C") })
        {
            _folder.Write($"bench/{name}/product.yaml", $"product: Tarnholt TH-15\nsample: {name}\ncaptures:\n  - {{file: c1.words, port: C1, in_use: [C1]}}\n");
            _folder.Write($"bench/{name}/c1.words", words);
        }
    }

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("a.html", "html")]
    [InlineData("a.json", "json")]
    public async Task ReportThatCannotBeWritten_IsAnErrorOfItsProduct(string inTheWay, string format)
    {
        string other = inTheWay == "a.html" ? "a.json" : "a.html";
        _folder.Write($"reports/{inTheWay}/x", "a folder in the way");
        _folder.Write($"reports/{other}", "what an earlier batch said");

        CliRun run = await BatchAsync("reports", "--resume");

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain($"bench/a: NO REPORT: its report cannot be written as {format}").And.Contain("bench/c: HOLDS");
        (Count(run, "products"), Count(run, "no report"), Count(run, "cannot be read")).Should().Be((3, 1, 0));
        Read("reports/" + other).Should().Contain("cannot be written").And.NotContain("what an earlier batch said");
        Cases("reports").Should().Equal("error", "failure", "");
        Read("reports/index.html").Should().Contain("3 products");

        Directory.Delete(_folder.PathOf("reports/" + inTheWay), recursive: true);
        CliRun again = await BatchAsync("reports", "--resume");

        again.ExitCode.Should().Be(ExitCode.Findings);
        Count(again, "not repeated").Should().Be(2);
        Cases("reports").Should().Equal("", "failure", "");
    }

    [Fact]
    public async Task FileOfTheWholeBatchThatCannotBeWritten_LeavesTheOthers()
    {
        _folder.Write("reports/batch.junit.xml/x", "a folder in the way");

        CliRun run = await BatchAsync("reports");

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("batch.junit.xml: cannot be written");
        Read("reports/index.html").Should().Contain("3 products");
        Count(run, "products").Should().Be(3);
    }

    [Theory]
    [InlineData("a.json", "")]
    [InlineData("a.json", "{}")]
    [InlineData("a.html", "")]
    [InlineData("a.html", null)]
    public async Task DamagedReport_IsMadeAnew(string file, string? content)
    {
        await BatchAsync("reports");
        string whole = Read("reports/" + file);
        File.Delete(_folder.PathOf("reports/" + file));
        if (content is not null)
        {
            _folder.Write("reports/" + file, content);
        }

        CliRun run = await BatchAsync("reports", "--resume");
        CliRun since = await BatchAsync("tuesday", "--since", _folder.PathOf("reports"));

        run.ExitCode.Should().Be(ExitCode.Findings);
        Count(run, "not repeated").Should().Be(2);
        Read("reports/" + file).Should().Be(whole);
        Cases("reports").Should().Equal("", "failure", "");
        Count(since, "not repeated").Should().Be(3);
    }

    [Theory]
    [InlineData("\0\0\0\0\0\0")]
    [InlineData("null")]
    [InlineData("[]")]
    [InlineData("{\"product\":null,\"report\":null,\"report_digests\":null,\"settings\":null,\"inputs\":null,\"verdict\":\"holds\",\"exit_code\":0,\"findings\":null}")]
    [InlineData("{\"product\":\"/x\",\"report\":\"../../x.json\",\"report_digests\":{\"x\":null},\"settings\":\"\",\"inputs\":{},\"verdict\":\"holds\",\"exit_code\":0,\"findings\":{}}")]
    [InlineData("{\"product\":\"/x\",\"report\":\"index.json\",\"report_digests\":{\"x\":\"\"},\"settings\":\"\",\"inputs\":{},\"verdict\":\"well\",\"exit_code\":0,\"findings\":{}}")]
    public async Task DamagedLineOfTheJournal_IsMadeAnew(string line)
    {
        await BatchAsync("reports");
        string journal = _folder.PathOf("reports/" + BatchJournal.FileName);
        string[] lines = File.ReadAllLines(journal);
        File.WriteAllLines(journal, [line, .. lines[1..]]);

        CliRun run = await BatchAsync("reports", "--resume");

        run.ExitCode.Should().Be(ExitCode.Findings, run.Error);
        Count(run, "not repeated").Should().Be(2);
        File.ReadAllLines(journal).Should().HaveCount(4);
    }

    [Fact]
    public async Task WhatWasLeftOutBefore_IsStillKnown()
    {
        await BatchAsync("monday");
        _folder.Write("bench/c/c1.words", "0x0002D12C");
        await BatchAsync("tuesday", "--since", _folder.PathOf("monday"));
        _folder.Write("bench/b/c1.words", "0x0801912C");

        CliRun wednesday = await BatchAsync("wednesday", "--since", _folder.PathOf("tuesday"));
        CliRun resumed = await BatchAsync("wednesday", "--resume");

        (Count(wednesday, "products"), Count(wednesday, "not repeated"), Count(wednesday, "fails")).Should().Be((3, 2, 1));
        wednesday.Error.Should().NotContain("portwitness: batch").And.NotContain("left");
        wednesday.Output.Should().Contain("3 samples", "reports of Monday, Tuesday and Wednesday are held against each other");
        (Count(resumed, "products"), Count(resumed, "not repeated")).Should().Be((3, 3));
        Cases("wednesday").Should().Equal("", "", "failure");
        Read("wednesday/index.html").Should().Contain("href=\"../monday/a.html\"").And.Contain("href=\"b.html\"").And.Contain("href=\"../tuesday/c.html\"");

        Directory.Delete(_folder.PathOf("monday"), recursive: true);
        CliRun thursday = await BatchAsync("thursday", "--since", _folder.PathOf("wednesday"));

        Count(thursday, "not repeated").Should().Be(2);
        Cases("thursday").Should().Equal("", "", "failure");
    }

    [Fact]
    public async Task SinceItself_KeepsWhatIsThere()
    {
        await BatchAsync("reports");

        CliRun run = await BatchAsync("reports", "--since", _folder.PathOf("reports"));

        (Count(run, "products"), Count(run, "not repeated")).Should().Be((3, 3));
        Cases("reports").Should().Equal("", "failure", "");
    }

    // The order of the kernel's calls is what counts after a loss of power: fsync(2), rename(2).
    [NeedsDebianPackageFact("strace", "/usr/bin/strace")]
    public async Task Journal_SaysDone_AfterReportAndFolderAreOnDisk()
    {
        ProgramRun run = await ProgramRun.Async(
            $"cd '{_folder.Path}'; strace -f -y -o calls -e trace=rename,fsync,write,pwrite64 \"$P\" batch bench --output reports --format json,html --quiet");

        run.ExitCode.Should().Be(ExitCode.Findings, run.Error);
        string[] calls = [.. File.ReadLines(_folder.PathOf("calls")).Where(static line => line.Contains("/reports", StringComparison.Ordinal))];
        int lastLine = 0;
        foreach (string file in new[] { "a.json", "a.html", "b.json", "b.html", "c.json", "c.html" })
        {
            int synced = At(0, line => line.Contains(" fsync(", StringComparison.Ordinal) && line.Contains($"/.{file}.", StringComparison.Ordinal));
            int renamed = At(synced, line => line.Contains(" rename(", StringComparison.Ordinal) && line.Contains($"/reports/{file}\"", StringComparison.Ordinal));
            int folder = At(renamed, static line => line.Contains(" fsync(", StringComparison.Ordinal) && line.Contains("/reports>", StringComparison.Ordinal));
            lastLine = At(folder, static line => line.Contains("write", StringComparison.Ordinal) && line.Contains(BatchJournal.FileName, StringComparison.Ordinal));
            calls.Take(renamed).Should().NotContain(line => line.Contains("write", StringComparison.Ordinal) && line.Contains(BatchJournal.FileName, StringComparison.Ordinal)
                && line.Contains($"bench/{file[0]}\"", StringComparison.Ordinal), "nothing is called done before");
        }

        At(lastLine, static line => line.Contains(" fsync(", StringComparison.Ordinal) && line.Contains(BatchJournal.FileName, StringComparison.Ordinal));

        int At(int from, Predicate<string> isIt)
        {
            int found = Array.FindIndex(calls, from, isIt);
            found.Should().BeGreaterThanOrEqualTo(from, string.Join('\n', calls));
            return found;
        }
    }

    private Task<CliRun> BatchAsync(string reports, params string[] options) =>
        CliRun.Async(["batch", _folder.PathOf("bench"), "--output", _folder.PathOf(reports), "--format", "json,html,junit", .. options]);

    private string Read(string file) => File.ReadAllText(_folder.PathOf(file));

    // What became of each product: the element in its test case, "" for one that passes.
    private IEnumerable<string> Cases(string reports) => XDocument.Load(_folder.PathOf(reports + "/batch.junit.xml")).Descendants("testcase")
        .Select(static one => one.Elements().FirstOrDefault(static element => element.Name.LocalName != "system-out")?.Name.LocalName ?? "");

    private static int Count(CliRun run, string name) =>
        int.Parse(run.OutputLines.Single(line => line.StartsWith(name + "  ", StringComparison.Ordinal)).Split(' ')[^1], System.Globalization.CultureInfo.InvariantCulture);
}
