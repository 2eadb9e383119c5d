using System.Diagnostics;
using System.Formats.Tar;
using System.IO.Compression;
using System.Text.Json;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>A laptop's power-delivery directory as a folder, an archive and a text: the same capture each time.</summary>
public sealed class SysfsFolderTests : IDisposable
{
    private const string Label = "USB-C: 5V⎓3A 9V⎓2.22A 12V⎓1.67A";

    // 5 V 3 A and 9 V 2.22 A (check vectors F2 and F6), as a kernel without peak_current shows them.
    private static readonly (string Path, string Value)[] Attributes =
    [
        ("revision", "3.0"),
        ("power/control", "auto"),
        ("source-capabilities/1:fixed_supply/voltage", "5000mV"),
        ("source-capabilities/1:fixed_supply/maximum_current", "3000mA"),
        ("source-capabilities/1:fixed_supply/unconstrained_power", "1"),
        ("source-capabilities/1:fixed_supply/dual_role_power", "0"),
        ("source-capabilities/1:fixed_supply/usb_suspend_supported", "0"),
        ("source-capabilities/1:fixed_supply/usb_communication_capable", "0"),
        ("source-capabilities/1:fixed_supply/dual_role_data", "0"),
        ("source-capabilities/1:fixed_supply/unchunked_extended_messages_supported", "0"),
        ("source-capabilities/2:fixed_supply/voltage", "9000mV"),
        ("source-capabilities/2:fixed_supply/maximum_current", "2220mA"),
    ];

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    public static TheoryData<string> Inputs => ["folder", "folder/", "link", "text", "tar", "tar.gz"];

    [Theory]
    [MemberData(nameof(Inputs))]
    public async Task Directory_IsDecodedInWhateverForm(string form)
    {
        CliRun run = await CliRun.Async("decode", Input(form), "--format", "json");

        run.Error.Should().BeEmpty();
        run.ExitCode.Should().Be(ExitCode.Clean);
        JsonElement capture = JsonDocument.Parse(run.Output).RootElement;
        capture.GetProperty("format").GetString().Should().Be("sysfs");
        JsonElement advertisement = capture.GetProperty("advertisements").EnumerateArray().Single();
        advertisement.GetProperty("message").GetString().Should().Be("Source_Capabilities");
        advertisement.GetProperty("objects").EnumerateArray().Select(o => o.GetProperty("rawHex").GetString())
            .Should().Equal("0x0801912C", "0x0002D0DE");
    }

    [Theory]
    [MemberData(nameof(Inputs))]
    public async Task Directory_IsCheckedAgainstALabelInWhateverForm(string form)
    {
        CliRun run = await CliRun.Async("check", Input(form), "--label", "USB-C: 5V⎓3A 9V⎓2.22A", "--format", "json");

        run.Error.Should().BeEmpty();
        run.ExitCode.Should().Be(ExitCode.Clean);
        JsonDocument.Parse(run.Output).RootElement.GetProperty("verdict").GetString().Should().Be("holds");
    }

    [Fact]
    public async Task Text_IsReadFromStandardInput()
    {
        CliRun run = await CliRun.WithInputAsync(File.ReadAllText(Input("text")), "decode", "-");

        run.ExitCode.Should().Be(ExitCode.Clean);
        run.Output.Should().Contain("0x???2D0DE  fixed  9 V  2.22 A");
    }

    [Fact]
    public async Task FolderOfAProduct_MayHoldTheDirectoryAsACapture()
    {
        WriteTree("th-20/c1-pd");
        string product = _folder.Write("th-20/product.yaml", $$"""
            product: Tarnholt TH-20
            label: "{{Label}}"
            captures:
              - {file: c1-pd, port: USB-C, in_use: [USB-C]}
            """);

        CliRun byFile = await CliRun.Async("check", product, "--format", "json");

        byFile.Error.Should().BeEmpty();
        JsonElement report = JsonDocument.Parse(byFile.Output).RootElement;
        report.GetProperty("ports")[0].GetProperty("arrangements")[0].GetProperty("offered").GetProperty("objects")
            .GetArrayLength().Should().Be(2);
        (await CliRun.Async("check", _folder.PathOf("th-20"), "--format", "json")).ExitCode.Should().Be(byFile.ExitCode);
    }

    [Fact]
    public void LinksInside_AreNotFollowed()
    {
        WriteTree("pd1");
        _folder.Write("outside/voltage", "20000mV\n");
        _folder.Write("outside/maximum_current", "5000mA\n");
        Directory.CreateSymbolicLink(_folder.PathOf("pd1/source-capabilities/3:fixed_supply"), _folder.PathOf("outside"));
        File.CreateSymbolicLink(_folder.PathOf("pd1/source-capabilities/2:fixed_supply/peak_current"), _folder.PathOf("outside/voltage"));
        Directory.CreateSymbolicLink(_folder.PathOf("pd1/subsystem"), _folder.Path);

        Read("pd1").Should().NotContain("20000").And.NotContain("3:fixed_supply").And.NotContain("peak_current")
            .And.NotContain("subsystem");
    }

    [Fact]
    public void Text_HoldsNothingButCapabilities()
    {
        WriteTree("pd1");
        _folder.Write("pd1/diary.txt", "secret");
        _folder.Write("pd1/port0-partner/usb_power_delivery_revision", "3.0\n");
        _folder.Write("pd1/source-capabilities/1:fixed_supply/uevent", "DEVTYPE=pdo\nA=1\n");
        _folder.Write("pd1/source-capabilities/1:fixed_supply/empty", "");

        string text = Read("pd1");

        text.Should().NotContain("secret").And.NotContain("empty").And.NotContain("pd1/revision");
        text.Split('\n').Should().Contain("pd1/port0-partner/usb_power_delivery_revision:3.0")
            .And.Contain("pd1/source-capabilities/1:fixed_supply/uevent:A=1")
            .And.Contain("pd1/source-capabilities/2:fixed_supply/voltage:9000mV");
    }

    [Fact]
    public void OddFiles_GiveNoLinesOfTheirOwn()
    {
        WriteTree("pd1");
        _folder.Write("pd1/source-capabilities/1:fixed_supply/a\npd2", "1\n");
        _folder.Write("pd1/source-capabilities/1:fixed_supply/huge", new string('9', 1 << 20));
        File.WriteAllText(_folder.PathOf("pd1/source-capabilities/2:fixed_supply/voltage"), "9000mV\n" + new string('\0', 4089));
        using (Process fifo = Process.Start("mkfifo", _folder.PathOf("pd1/source-capabilities/1:fixed_supply/pipe")))
        {
            fifo.WaitForExit();
        }

        string[] lines = Read("pd1").TrimEnd('\n').Split('\n');

        lines.Should().OnlyContain(line => line.StartsWith("pd1/source-capabilities/", StringComparison.Ordinal) && line.Length < 4200);
        lines.Should().Contain("pd1/source-capabilities/2:fixed_supply/voltage:9000mV");
        lines.Should().NotContain(line => line.Contains("pipe", StringComparison.Ordinal));
    }

    [Fact]
    public void ThousandsOfFiles_AreRefused()
    {
        string top = _folder.PathOf("pd1/source-capabilities/1:fixed_supply");
        Directory.CreateDirectory(top);
        for (int index = 0; index < 2001; index++)
        {
            File.WriteAllText(Path.Combine(top, $"a{index}"), "1");
        }

        Action read = () => Read("pd1");

        read.Should().Throw<CommandFailure>().WithMessage("*many ports*");
    }

    [Fact]
    public async Task FolderOfOtherThings_IsExplainedAndNothingOfItIsRead()
    {
        _folder.Write("letters/source-capabilities.pdf", "x");

        CliRun run = await CliRun.Async("decode", _folder.PathOf("letters"));

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Output.Should().BeEmpty();
        run.Error.Should().Contain("letters: is a folder without").And.Contain("port0-partner/usb_power_delivery");
    }

    [Fact]
    public async Task DirectoryWithTheLaptopsOwnPort_IsRefusedWithTheNames()
    {
        WriteTree("class/pd1");
        _folder.Write("class/pd0/source-capabilities/1:fixed_supply/voltage", "5000mV\n");

        CliRun run = await CliRun.Async("decode", _folder.PathOf("class"), "--format", "json");

        run.Output.Should().Contain("sysfs-several-ports").And.Contain("class/pd0").And.Contain("class/pd1");
    }

    private string Read(string folder)
    {
        using StreamReader reader = new(SysfsFolder.Open(_folder.PathOf(folder), folder));
        return reader.ReadToEnd();
    }

    private void WriteTree(string top)
    {
        foreach ((string path, string value) in Attributes)
        {
            _folder.Write($"{top}/{path}", value + "\n");
        }
    }

    private string Input(string form)
    {
        WriteTree("devices/pd1");
        string folder = _folder.PathOf("devices/pd1");
        switch (form)
        {
            case "link":
                Directory.CreateDirectory(_folder.PathOf("class"));
                return Directory.CreateSymbolicLink(_folder.PathOf("class/pd1"), "../devices/pd1").FullName;
            case "text":
                return _folder.Write("pd1.txt", string.Concat(Attributes.Select(a => $"pd1/{a.Path}:{a.Value}\n")));
            case "tar":
                TarFile.CreateFromDirectory(folder, _folder.PathOf("pd1.tar"), includeBaseDirectory: true);
                return _folder.PathOf("pd1.tar");
            case "tar.gz":
                using (GZipStream packed = new(File.Create(_folder.PathOf("pd1.tar.gz")), CompressionLevel.Optimal))
                {
                    TarFile.CreateFromDirectory(folder, packed, includeBaseDirectory: false);
                }

                return _folder.PathOf("pd1.tar.gz");
            default:
                return form == "folder/" ? folder + "/" : folder;
        }
    }
}
