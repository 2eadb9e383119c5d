using System.Diagnostics;
using System.Text;

namespace Portwitness.Cli.Tests;

/// <summary>The program as users get it: compiled ahead of time.</summary>
public sealed class PublishedBinaryTests
{
    [PublishedBinaryFact]
    public Task DecodeAsJson_IsTheSame() =>
        SameAsync("decode", "--words", "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "--format", "json");

    [PublishedBinaryFact]
    public Task CheckAsText_IsTheSame() => SameAsync("check", Repository.PathOf("captures", "dishonest-th100"));

    [PublishedBinaryFact]
    public Task CheckAsJson_IsTheSame() =>
        SameAsync("check", Repository.PathOf("captures", "broken-tp20"), "--format", "json");

    [PublishedBinaryFact]
    public Task SynthesizedCapture_IsTheSame() =>
        SameAsync("synthesize", Repository.PathOf("captures", "clean-th65", "c1.synthesis.yaml"));

    [PublishedBinaryFact]
    public Task Rules_AreTheSame() => SameAsync("rules", "--format", "json");

    [PublishedBinaryFact]
    public Task Help_IsTheSame() => SameAsync("check", "--help");

    [PublishedBinaryFact]
    public Task RetriesEndAlike() => SameAsync("rules", "--server", "unix:/nonexistent/socket");

    [PublishedBinaryFact]
    public async Task Service_HasHealthAndServes()
    {
        using TemporaryFolder folder = new();
        string address = $"unix:{folder.PathOf("socket")}";
        using Process service = Start("serve", "--no-store", "--listen", address);
        (await service.StandardOutput.ReadLineAsync()).Should().Be($"Listening on {address}");

        await SameAsync("decode", "--words", "0x0801912C", "--server", address);

        service.Kill();
        await service.WaitForExitAsync();
    }

    private static async Task SameAsync(params string[] args)
    {
        using Process process = Start(args);
        Task<string> error = process.StandardError.ReadToEndAsync();
        string output = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();

        // What is written as bytes goes to the same place.
        CliRun here = await CliRun.Async(args);
        new CliRun(process.ExitCode, output, await error)
            .Should().Be(new CliRun(here.ExitCode, here.Output + Encoding.UTF8.GetString(here.OutputBytes), here.Error));
    }

    private static Process Start(params string[] args)
    {
        File.Exists(PublishedBinaryFactAttribute.Program).Should().BeTrue(PublishedBinaryFactAttribute.Missing);
        return Process.Start(new ProcessStartInfo(PublishedBinaryFactAttribute.Program, args)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
    }
}
