using Portwitness.Cli;

return await CommandLine.RunAsync(args, Terminal.FromConsole());
