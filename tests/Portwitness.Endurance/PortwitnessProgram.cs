using System.Diagnostics;
using System.Globalization;

namespace Portwitness.Endurance;

/// <summary>The program in a process of its own, which can be killed: the native one of PORTWITNESS_AOT, or the one that was built beside this.</summary>
internal sealed class PortwitnessProgram : IDisposable
{
    private readonly Process _process;
    private readonly Task<string> _output;
    private readonly Task<string> _error;

    private PortwitnessProgram(Process process)
    {
        _process = process;
        _output = process.StandardOutput.ReadToEndAsync();
        _error = process.StandardError.ReadToEndAsync();
    }

    /// <summary>Whether it runs still.</summary>
    public bool IsRunning => !_process.HasExited;

    /// <summary>The most memory that it held, in bytes: VmHWM of proc_pid_status(5), as last looked at.</summary>
    public long PeakMemory { get; private set; }

    /// <summary>The memory that it holds now, in bytes (VmRSS), and how many files are open.</summary>
    public (long Memory, int Files) Held
    {
        get
        {
            string memory = File.ReadLines($"/proc/{_process.Id}/status").First(static line => line.StartsWith("VmRSS:", StringComparison.Ordinal));
            return (
                long.Parse(memory.Split(' ', StringSplitOptions.RemoveEmptyEntries)[1], CultureInfo.InvariantCulture) * 1024,
                Directory.GetFileSystemEntries($"/proc/{_process.Id}/fd").Length);
        }
    }

    /// <summary>Starts it.</summary>
    public static PortwitnessProgram Start(params string[] args)
    {
        string native = PublishedBinaryFactAttribute.Program;
        string[] command = File.Exists(native) ? [native, .. args] : ["dotnet", Path.Combine(AppContext.BaseDirectory, "portwitness.dll"), .. args];
        return new PortwitnessProgram(Process.Start(new ProcessStartInfo(command[0], command[1..])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!);
    }

    /// <summary>Notes the memory that it holds.</summary>
    public void Look()
    {
        try
        {
            string? peak = File.ReadLines($"/proc/{_process.Id}/status").FirstOrDefault(static line => line.StartsWith("VmHWM:", StringComparison.Ordinal));
            PeakMemory = peak is null ? PeakMemory : long.Parse(peak.Split(' ', StringSplitOptions.RemoveEmptyEntries)[1], CultureInfo.InvariantCulture) * 1024;
        }
        catch (IOException)
        {
            // It has just ended; what was seen last counts.
        }
    }

    /// <summary>Ends it as SIGKILL does: it is told nothing.</summary>
    public void Kill()
    {
        _process.Kill();
        _process.WaitForExit();
    }

    /// <summary>Waits until it ends by itself, looking at its memory.</summary>
    /// <returns>Its exit code and what it wrote.</returns>
    public async Task<(int ExitCode, string Output, string Error)> EndAsync()
    {
        Task exit = _process.WaitForExitAsync();
        while (await Task.WhenAny(exit, Task.Delay(100)) != exit)
        {
            Look();
        }

        return (_process.ExitCode, await _output, await _error);
    }

    public void Dispose()
    {
        if (IsRunning)
        {
            Kill();
        }

        _process.Dispose();
    }
}
