using System.CommandLine;
using Google.Rpc;
using Grpc.Core;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Connection;

/// <summary>What a failed call means to the person at the command line.</summary>
internal static class ServiceFault
{
    public static int ExitCodeOf(RpcException exception) => exception.StatusCode
        is StatusCode.Unavailable or StatusCode.DeadlineExceeded or StatusCode.Unimplemented
            ? ExitCode.NoService
            : ExitCode.Unusable;

    public static string Describe(RpcException exception) => exception.StatusCode switch
    {
        StatusCode.Unavailable => "the service went away during the call, and did not come back; what it had accepted is kept. Run the same command again when it is there.",
        StatusCode.DeadlineExceeded => "the service did not answer in time.",
        StatusCode.Unimplemented => "the service is of another version: it does not know this call.",
        StatusCode.InvalidArgument when Violations(exception) is { Length: > 0 } violations =>
            $"the service refused the request: {violations}",
        StatusCode.ResourceExhausted => $"too much for the service: {exception.Status.Detail}",
        StatusCode.Unauthenticated or StatusCode.PermissionDenied => $"the service refuses: {exception.Status.Detail}",
        _ => $"the service failed: {exception.Status.Detail}",
    };

    /// <summary>The same where no service was asked: what is wrong is told by the options that say it.</summary>
    public static string DescribeOwn(RpcException exception, Command command) => exception.StatusCode switch
    {
        StatusCode.InvalidArgument when exception.GetRpcStatus()?.GetDetail<BadRequest>()?.FieldViolations is { Count: > 0 } violations => string.Join(
            "; ", violations.Select(violation => $"{OptionOf(violation.Field, command)}: {violation.Description}")),
        StatusCode.ResourceExhausted => $"too much at once: {exception.Status.Detail}",
        _ => exception.Status.Detail,
    };

    private static string OptionOf(string field, Command command)
    {
        string name = "--" + field.Split('.')[^1].Split('[')[0].Replace('_', '-');
        return command.Options.Any(option => option.Name == name) ? name : field;
    }

    private static string Violations(RpcException exception) => string.Join("; ",
        (exception.GetRpcStatus()?.GetDetail<BadRequest>()?.FieldViolations ?? [])
            .Select(violation => $"{violation.Field}: {violation.Description}"));
}
