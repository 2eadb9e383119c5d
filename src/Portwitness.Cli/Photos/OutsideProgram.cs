using System.ComponentModel;
using System.Diagnostics;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Photos;

/// <summary>A program of the system that is given bytes and gives bytes back.</summary>
/// <param name="name">The program.</param>
/// <param name="package">The Debian package that has it.</param>
internal sealed class OutsideProgram(string name, string package)
{
    private const int MaxOutput = 64 << 20;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    /// <summary>Runs it.</summary>
    /// <returns>What it wrote, and what it complained of; null when it failed.</returns>
    /// <exception cref="CommandFailure">It is not installed, or did not end.</exception>
    public (byte[]? Output, string Complaint) Run(ReadOnlyMemory<byte> input, params string[] arguments)
    {
        ProcessStartInfo start = new(name, arguments) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };

        // More threads are slower on pictures of this size.
        start.Environment["OMP_THREAD_LIMIT"] = "1";
        using Process process = Start(start);
        using CancellationTokenSource patience = new(Patience);
        using CancellationTokenRegistration _ = patience.Token.Register(() => process.Kill(entireProcessTree: true));
        Task feeding = FeedAsync(process, input);
        Task<string> complaint = process.StandardError.ReadToEndAsync(CancellationToken.None);
        byte[]? output = ReadOutput(process.StandardOutput.BaseStream);
        if (output is null)
        {
            process.Kill(entireProcessTree: true);
        }

        Task.WaitAll(feeding, complaint);
        process.WaitForExit();
        return patience.IsCancellationRequested
            ? throw new CommandFailure($"{name} did not end within {Patience.TotalSeconds:0} s; give a smaller part of the photo.")
            : (process.ExitCode == 0 ? output : null, complaint.Result);
    }

    private Process Start(ProcessStartInfo start)
    {
        try
        {
            return Process.Start(start)!;
        }
        catch (Win32Exception)
        {
            throw new CommandFailure(
                $"text is recognised on photos by the programs convert and tesseract, and {name} is not installed: apt-get install {package}. Or type the label's text.");
        }
    }

    private static byte[]? ReadOutput(Stream stream)
    {
        using MemoryStream kept = new();
        byte[] buffer = new byte[1 << 16];
        for (int read = stream.Read(buffer); read > 0; read = stream.Read(buffer))
        {
            if (kept.Length + read > MaxOutput)
            {
                return null;
            }

            kept.Write(buffer, 0, read);
        }

        return kept.ToArray();
    }

    // A program that has seen enough closes its input.
    private static async Task FeedAsync(Process process, ReadOnlyMemory<byte> input)
    {
        try
        {
            await process.StandardInput.BaseStream.WriteAsync(input);
            process.StandardInput.Close();
        }
        catch (IOException)
        {
            // What it says of it counts.
        }
    }
}
