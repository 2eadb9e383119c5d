using System.Diagnostics;
using System.Text;
using System.Xml.Linq;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>Folders of a batch as a file system may have them: each product is counted, and none stops the others.</summary>
public sealed class BatchHostileFolderTests : IDisposable
{
    private const string Product = """
        product: Tarnholt TH-15
        captures:
          - {file: c1.words, port: C1, in_use: [C1]}
        """;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly TemporaryFolder _folder = new();
    private readonly string _reports;

    public BatchHostileFolderTests()
    {
        Add("good");
        _reports = _folder.PathOf("reports");
    }

    // .NET itself cannot remove what it cannot name.
    public void Dispose()
    {
        Shell($"chmod -R u+rwx '{_folder.Path}'; rm -rf '{_folder.Path}/bench'");
        _folder.Dispose();
    }

    [Theory]
    [InlineData("mkdir \"$(printf 'caf\\351')\"; cp good/* \"$(printf 'caf\\351')\"", "bench/caf\\xE9: CANNOT BE READ: its name is not UTF-8; rename it")]
    [InlineData("mkfifo bad/c1.words", "\"c1.words\" could not be read: it is a pipe; write what comes out of it to a file")]
    [InlineData("mkfifo bad/product.yaml", "product.yaml: is a pipe;")]
    [InlineData("mkdir bad/c1.words", "\"c1.words\" could not be read: it is a folder")]
    [InlineData("mkdir bad/product.yaml", "product.yaml: is a folder")]
    [InlineData("python3 -c \"import socket; socket.socket(socket.AF_UNIX).bind('bad/c1.words')\"", "it is a socket;")]
    [InlineData("ln -s /dev/zero bad/c1.words", "a link leads out of the product's folder")]
    [InlineData("ln -s c1.words bad/c1.words", "links lead in a circle")]
    [InlineData("ln -s product.yaml bad/product.yaml", "product.yaml: is a link that leads in a circle")]
    [InlineData("ln -s elsewhere bad/product.yaml", "product.yaml: is a link that leads nowhere")]
    [InlineData("ln -s elsewhere gone", "bench/gone: CANNOT BE READ: is a link that leads nowhere")]
    [InlineData("ln -s loop loop", "bench/loop: CANNOT BE READ: is a link that leads in a circle")]
    [InlineData("truncate -s 1T bad/c1.words", "more than 1 GiB that was never written")]
    [InlineData("truncate -s 1T bad/product.yaml", "more than 1 GiB that was never written")]
    public async Task ProductThatCannotBeRead_IsNamedAndCounted(string make, string reason)
    {
        if (make.Contains("bad/", StringComparison.Ordinal))
        {
            Add("bad");
            File.Delete(_folder.PathOf("bench/bad/" + (make.Contains("product.yaml", StringComparison.Ordinal) ? "product.yaml" : "c1.words")));
        }

        Shell($"cd '{_folder.PathOf("bench")}' && {make}");

        CliRun run = await BatchAsync("--format", "json,junit").WaitAsync(Patience);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain(reason).And.Contain("bench/good: HOLDS");
        (Count(run, "products"), Count(run, "cannot be read"), Count(run, "holds")).Should().Be((2, 1, 1));
        XDocument.Load(Path.Combine(_reports, "batch.junit.xml")).Descendants("error").Should().ContainSingle();
    }

    // Nobody is there to say that these are products.
    [Theory]
    [InlineData("mkdir \"$(printf 'caf\\351')\"")]
    [InlineData("touch \"$(printf 'caf\\351')\"")]
    [InlineData("ln -s elsewhere .#good")]
    [InlineData("mkfifo pipe")]
    [InlineData("touch good/\"$(printf '\\377')\"")]
    public async Task WhatIsNoProduct_IsLeftOut(string make)
    {
        Shell($"cd '{_folder.PathOf("bench")}' && {make}");

        CliRun run = await BatchAsync().WaitAsync(Patience);

        (run.ExitCode, Count(run, "products")).Should().Be((0, 1));
    }

    [Fact]
    public async Task CaptureWhoseNameIsNotUtf8_IsNamedAndCounted()
    {
        _folder.Write("night/a.words", "0x0801912C");
        Shell($"cd '{_folder.PathOf("night")}' && cp a.words \"$(printf 'b\\351.words')\" && mkfifo c.words");

        CliRun run = await CliRun.Async("batch", _folder.PathOf("night"), "--label", "USB-C: 5V⎓3A").WaitAsync(Patience);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("b\\xE9.words: CANNOT BE READ: its name is not UTF-8").And.Contain("c.words: is a pipe");
        Count(run, "cannot be read").Should().Be(2);
        Shell($"rm -rf '{_folder.PathOf("night")}'");
    }

    // Linux takes 255 bytes for a name (limits.h, NAME_MAX).
    [Theory]
    [InlineData("n", 255)]
    [InlineData("n", 236)]
    [InlineData("é", 127)]
    [InlineData("🔌", 63)]
    public async Task LongName_IsShortened(string letter, int times)
    {
        string name = string.Concat(Enumerable.Repeat(letter, times));
        Add(name);
        Add(name[..^letter.Length] + "x");

        CliRun run = await BatchAsync("--format", "json,html");
        CliRun again = await BatchAsync("--format", "json,html", "--resume");

        (run.ExitCode, again.ExitCode).Should().Be((0, 0));
        string[] reports = [.. Directory.GetFiles(_reports, "*.json").Select(Path.GetFileName).OfType<string>().Where(file => file.StartsWith(letter, StringComparison.Ordinal))];
        reports.Should().HaveCount(2).And.OnlyHaveUniqueItems().And.OnlyContain(file => Encoding.UTF8.GetByteCount(file) <= 255);
        Count(again, "not repeated").Should().Be(3);
    }

    [Fact]
    public async Task NamesOfTheBatchItself_StayFree()
    {
        Add("index");
        Add("batch");
        Add("Index");

        await BatchAsync("--format", "json");
        CliRun run = await BatchAsync("--format", "json,html,junit", "--resume");

        run.ExitCode.Should().Be(0);
        File.ReadAllText(Path.Combine(_reports, "index.html")).Should().Contain("Products of a batch").And.Contain("href=\"Index-2.html\"").And.Contain("href=\"index-3.html\"");
        File.ReadAllText(Path.Combine(_reports, "index-3.html")).Should().Contain("Tarnholt TH-15");
        Count(run, "products").Should().Be(4);
    }

    private Task<CliRun> BatchAsync(params string[] options) => CliRun.Async(["batch", _folder.PathOf("bench"), "--output", _reports, .. options]);

    private static int Count(CliRun run, string name) =>
        int.Parse(run.OutputLines.Single(line => line.StartsWith(name + "  ", StringComparison.Ordinal)).Split(' ')[^1], System.Globalization.CultureInfo.InvariantCulture);

    private static void Shell(string line)
    {
        using Process shell = Process.Start("/bin/bash", ["-c", line]);
        shell.WaitForExit();
        shell.ExitCode.Should().Be(0, line);
    }

    private void Add(string name)
    {
        _folder.Write($"bench/{name}/product.yaml", Product);
        _folder.Write($"bench/{name}/c1.words", "0x0801912C");
    }
}
